import { FINGER_PAIRS } from '../../hand/hands';
import type { Instrument } from '../../instrument/instrument';
import { pitchName } from '../../music/pitch';
import type { Passage } from '../../passage/passage';
import type { SettingKey } from '../../passage/values';
import { capital } from '../../scene/words';
import type { Solution } from '../../solver/solution';
import { FIELDS } from '../score/fields';
import { scordaturaMark } from './marks';
import { writeMeasures } from './write-measures';
import { printXml, text, type Xml, xmlElement } from './xml';

export interface ExportChoice {
  /** The fingering to print; without it only what the passage itself says is. Must be a solution of this very passage. */
  readonly solution?: Solution;
  /** Title of the work that the passage is part of: the file's own `title`. */
  readonly work?: string;
  /** Version of Passagework, for the file's record of what wrote it. */
  readonly version?: string;
}

const DOCTYPE =
  '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">';

/**
 * One passage as a MusicXML 4.0 score (text of a .musicxml file, to be saved as UTF-8). Equal input
 * gives equal text: no dates, no chance. What MusicXML has no element for travels as named fields and
 * `other-technical` marks, so that reading the file again gives the passage back.
 */
export function writeMusicXml(passage: Passage, choice: ExportChoice = {}): string {
  const { instrument } = passage.setup;
  const part = { id: 'P1' };
  const score = xmlElement(
    'score-partwise',
    { version: '4.0' },
    choice.work ? xmlElement('work', {}, text('work-title', choice.work)) : undefined,
    passage.title !== '' ? text('movement-title', passage.title) : undefined,
    identification(passage, choice.version),
    xmlElement('part-list', {}, partOf(instrument)),
    xmlElement('part', part, ...writeMeasures(passage, choice.solution)),
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${DOCTYPE}\n${printXml(score)}`;
}

function partOf({ family }: Instrument): Xml {
  const name = capital(family);
  const player = xmlElement(
    'score-instrument',
    { id: 'P1-I1' },
    text('instrument-name', name),
    text('instrument-sound', `strings.${family}`),
  );
  return xmlElement('score-part', { id: 'P1' }, text('part-name', name), player);
}

function identification(passage: Passage, version: string | undefined): Xml {
  const values = settingsOf(passage);
  const fields = FIELDS.flatMap(([key, name]) => {
    const value = values.get(key);
    return value === undefined ? [] : [text('miscellaneous-field', value, { name })];
  });
  const supported = ['accidental', 'beam'].map((name) => xmlElement('supports', { element: name, type: 'yes' }));
  return xmlElement(
    'identification',
    {},
    xmlElement('encoding', {}, text('software', version ? `Passagework ${version}` : 'Passagework'), ...supported),
    fields.length > 0 ? xmlElement('miscellaneous', {}, ...fields) : undefined,
  );
}

/** The settings that no element of MusicXML holds, where they are not the usual ones. */
function settingsOf(passage: Passage): ReadonlyMap<SettingKey, string> {
  const { events } = passage;
  const { instrument, hand, temperament, a4 } = passage.setup;
  const values = new Map<SettingKey, string>();
  if (instrument.name !== instrument.family) values.set('instrument', instrument.name);
  if (a4 !== 440) values.set('pitch', `A4 = ${a4}`);
  if (!scordaturaMark(passage) && isEqual(instrument)) values.set('tuning', 'equal');
  if (hand.name === 'measured') {
    const reaches = FINGER_PAIRS.flatMap((pair) => {
      const reach = hand.reaches[pair];
      return reach ? [`${pair} ${Math.round(reach.most * 10) / 10}`] : [];
    });
    values.set('hand', reaches.join(', '));
  } else if (hand.name !== 'medium' || instrument.name !== instrument.family) values.set('hand', hand.name);
  if (temperament.kind === 'just')
    values.set('temperament', `just ${pitchName({ ...temperament.tonic, octave: 4 }).slice(0, -1)}`);
  else if (temperament.kind !== 'equal') values.set('temperament', temperament.kind);
  if (events.some((e) => e.spec.notes.some((n) => n.harmonic === 'may'))) values.set('harmonics', 'allowed');
  return values;
}

/** True for strings tuned in equal temperament: no two are a pure fifth apart. */
function isEqual({ strings }: Instrument): boolean {
  return strings.every((string, i) => {
    const next = strings[i + 1];
    return !next || Math.abs(Math.log2(string.hz / next.hz) * 12 - Math.round(Math.log2(string.hz / next.hz) * 12)) < 1e-6;
  });
}
