import type { Family } from '../../instrument/instrument';
import { t } from '../../l10n/translate';
import { familyNamed, oneLine, type Score, type ScorePart } from '../score/score';
import { Unreadable } from '../unreadable';
import { attribute, child, children, type Element, textOf } from './element';
import { readMeasures } from './measures';
import { openScore } from './open';
import { type PartElements, scoreMarks } from './score-marks';

/**
 * A MusicXML score (.musicxml or .xml as bytes or text, .mxl as bytes) of either layout; the time-wise one is turned into part-wise.
 *
 * @throws Unreadable where the file is no score, is damaged, or asks more of the machine than a score may.
 */
export function readMusicXml(source: Uint8Array | string): Score {
  const root = openScore(source);
  const measures = root.name === 'score-timewise' ? timewise(root) : partwise(root);
  const listed = children(child(root, 'part-list'), 'score-part').flatMap((element) => {
    const own = measures.get(attribute(element, 'id') ?? '');
    return own ? [{ element, measures: own }] : [];
  });
  const parts = listed.map((part) => readPart(part, listed));
  if (parts.length === 0)
    throw new Unreadable(t('The score has no part with music in it. Export it again, with at least one part.'));
  const identification = child(root, 'identification');
  const work = textOf(child(root, 'work'), 'work-title');
  const movement = textOf(root, 'movement-title');
  const credits = [
    ...children(identification, 'creator').map((c) => `${attribute(c, 'type') ?? 'by'}: ${c.text}`),
    ...children(identification, 'rights').map((r) => `rights: ${r.text}`),
  ].map(oneLine);
  const fields = new Map(
    children(child(identification, 'miscellaneous'), 'miscellaneous-field').map((f) => [
      attribute(f, 'name') ?? '',
      oneLine(f.text),
    ]),
  );
  return { credits, fields, parts, ...(work && { work: oneLine(work) }), ...(movement && { movement: oneLine(movement) }) };
}

interface Listed extends PartElements {
  /** Its `<score-part>`. */
  readonly element: Element;
}

function readPart(own: Listed, all: readonly Listed[]): ScorePart {
  const { element } = own;
  const id = attribute(element, 'id') ?? '';
  const name = textOf(element, 'part-name') ?? textOf(child(element, 'part-name-display'), 'display-text') ?? id;
  const family = familyOf(element, name);
  return {
    id,
    name: oneLine(name),
    ...(family && { family }),
    measures: (losses) => readMeasures(own.measures, scoreMarks(all, own), losses),
  };
}

function partwise(root: Element): Map<string, readonly Element[]> {
  return new Map(children(root, 'part').map((part) => [attribute(part, 'id') ?? '', children(part, 'measure')]));
}

function timewise(root: Element): Map<string, readonly Element[]> {
  const byPart = new Map<string, Element[]>();
  for (const measure of children(root, 'measure')) {
    for (const part of children(measure, 'part')) {
      const id = attribute(part, 'id') ?? '';
      const measures = byPart.get(id) ?? [];
      measures.push({ ...measure, children: part.children });
      byPart.set(id, measures);
    }
  }
  return byPart;
}

function familyOf(part: Element, name: string): Family | undefined {
  const sound = textOf(child(part, 'score-instrument'), 'instrument-sound') ?? '';
  const standard = /^strings\.(violin|viola|cello)\b/.exec(sound)?.[1];
  if (standard) return standard as Family;
  return familyNamed([
    name,
    textOf(part, 'part-abbreviation') ?? '',
    textOf(child(part, 'score-instrument'), 'instrument-name') ?? '',
  ]);
}
