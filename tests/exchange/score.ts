import { importScore } from '../../server/exchange/import-score';
import { lossText } from '../../server/exchange/score/losses';

/** Writes small scores for the tests of reading, in MusicXML as programs write it. Durations are in eighths. */
export function score(measures: readonly string[], more: { head?: string; part?: string; name?: string } = {}): string {
  const body = measures.map((m, i) =>
    m.startsWith('<measure') ? m : `<measure number="${i + 1}">${i === 0 ? ATTRIBUTES : ''}${m}</measure>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
<score-partwise version="4.0">${more.head ?? ''}
<part-list><score-part id="P1"><part-name>${more.name ?? 'Violin'}</part-name>${more.part ?? ''}</score-part></part-list>
<part id="P1">${body.join('\n')}</part></score-partwise>`;
}

const ATTRIBUTES = '<attributes><divisions>2</divisions></attributes>';

/** A `<note>`: a pitch such as `F#5`, or empty for a rest, its length in eighths, and whatever else stands in it, by place. */
export function note(
  pitch: string,
  eighths: number,
  more: { before?: string; after?: string; technical?: string; notations?: string } = {},
): string {
  const [, letter, sign, octave] = /^([A-G])(#{0,2}|b{0,2})(\d)$/.exec(pitch) ?? [];
  const alter = sign === undefined || sign === '' ? '' : `<alter>${sign.startsWith('#') ? sign.length : -sign.length}</alter>`;
  const marks = `${more.notations ?? ''}${more.technical ? `<technical>${more.technical}</technical>` : ''}`;
  const what = pitch === '' ? '<rest/>' : `<pitch><step>${letter}</step>${alter}<octave>${octave}</octave></pitch>`;
  return `<note>${more.before ?? ''}${what}${
    eighths > 0 ? `<duration>${eighths}</duration>` : ''
  }${more.after ?? ''}${marks ? `<notations>${marks}</notations>` : ''}</note>`;
}

export const CHORD = '<chord/>';
export const DIAMOND = '<notehead filled="no">diamond</notehead>';
export const BRACKETS = '<notehead parentheses="yes">normal</notehead>';

export function rest(eighths: number, voice = ''): string {
  return `<note><rest/><duration>${eighths}</duration>${voice}</note>`;
}

/** The music lines of an imported score, without its head. */
export function music(xml: string): string {
  const { text } = importScore(xml);
  return text.slice(text.indexOf('\n\n') + 2).trim();
}

export function losses(xml: string): readonly string[] {
  return importScore(xml).losses.map(lossText);
}

/** The music of one bar that holds just these notes. */
export function bar(...notes: string[]): string {
  return music(score([notes.join('')]));
}
