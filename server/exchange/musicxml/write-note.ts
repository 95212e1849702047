import type { Breaking } from '../../../grammar/marks';
import type { Finger } from '../../../grammar/tree';
import type { NoteValue } from '../../music/note-values';
import { isByTurns } from '../../passage/ornament';
import type { BarRest, PassageEvent } from '../../passage/passage';
import { positionWords } from '../../scene/position-words';
import type { Beam } from './beams';
import { bracketEnds } from './brackets';
import { type Head, headsOf, soundsOpenly } from './heads';
import { pitchParts } from './marks';
import { typeOf } from './note-values';
import type { Part } from './part';
import { printedMarks } from './printed-marks';
import type { Slurs } from './slurs';
import { text, type Xml, xmlElement } from './xml';

/** How one note value of a bar is drawn. */
export interface Placing {
  readonly value: NoteValue;
  readonly beams: readonly Beam[];
  readonly tuplet: readonly ('start' | 'stop')[];
}

/** A grace note takes no time; the eighth alone is printed with a slash. */
function graceMark(event: PassageEvent, alone: boolean): Xml | undefined {
  if (!event.grace) return undefined;
  return xmlElement('grace', alone && event.grace.valueOf() === 1 / 8 ? { slash: 'yes' } : {});
}

/** A rest; `wholeBar` for one that fills its bar. */
export function restNote(part: Part, placing: Placing, wholeBar: boolean, printed: BarRest | undefined): Xml {
  const notations = [...tupletMarks(placing), ...printedMarks({ marks: printed?.marks ?? [] }).others];
  return xmlElement(
    'note',
    {},
    xmlElement('rest', wholeBar ? { measure: 'yes' } : {}),
    duration(part, placing.value),
    text('voice', 1),
    ...valueParts(placing.value),
    notations.length > 0 ? xmlElement('notations', {}, ...notations) : undefined,
  );
}

/** The note heads of an event, or of the piece of it that one note value shows; the first head carries what is said once. */
export function eventNotes(
  part: Part,
  index: number,
  piece: Placing & { first: boolean; last: boolean },
  slurs: Slurs,
): readonly Xml[] {
  const { passage, solution } = part;
  const event = passage.events[index] as PassageEvent;
  const before = passage.events[index - 1];
  const after = passage.events[index + 1];
  const ways = solution?.events[index]?.fingering.ways;
  const opening = solution && positionWords(solution, index)?.extends;
  const { instrument } = passage.setup;
  const isHeld = (n: number) => !piece.first || event.spec.held.some(([, here]) => here === n);
  // A diamond without its sounding pitch beside it must not be given a circle's.
  const open = event.spec.notes.some(
    (note, n) =>
      soundsOpenly(note, instrument, ways?.[n]) ||
      (isHeld(n) && (note.asked.kind !== 'sounding' || ways?.[n]?.kind === 'artificial')),
  );
  const broken = event.spec.notes.find(({ pins }) => pins.breaking)?.pins.breaking ?? setInHalves(solution, index);
  const notes: Xml[] = [];
  const alone = !before?.grace && !after?.grace;
  const printed = piece.first ? printedMarks(event, before, after) : undefined;
  for (const [n, note] of event.spec.notes.entries()) {
    const heldOn = after?.spec.held.some(([there]) => there === n) ?? false;
    const continues = isHeld(n);
    for (const head of headsOf(note, instrument, ways?.[n], open)) {
      if (head.shape === 'brackets' && continues) continue;
      const ties = head.shape === 'brackets' ? [] : [...(continues ? ['stop'] : []), ...(heldOn || !piece.last ? ['start'] : [])];
      const first = notes.length === 0;
      const bow = first && piece.first ? event.bow : undefined;
      const technical = [
        ...(bow ? [xmlElement(`${bow}-bow`, {})] : []),
        ...(first && printed ? printed.technical : []),
        ...technicalOf(head, continues, opening),
      ];
      const slide = first && piece.first ? slideMarks(event, before) : [];
      const slidesOn = first && piece.last && after?.spec.slide && event.spec.rest === 0 ? [slideMark('start')] : [];
      const marks = [
        ...ties.map((type) => xmlElement('tied', { type })),
        ...(first && piece.last && slurs.ends.has(index) ? [xmlElement('slur', { type: 'stop', number: '1' })] : []),
        ...(first && piece.first && slurs.starts.has(index) ? [xmlElement('slur', { type: 'start', number: '1' })] : []),
        ...(first && printed ? printed.phrases : []),
        ...(first ? tupletMarks(piece) : []),
        ...slide,
        ...slidesOn,
        ...(first && printed ? printed.others : []),
        ...(piece.first && head.shape === 'plain' ? bracketEnds(broken, n) : []),
        ...(technical.length > 0 ? [xmlElement('technical', {}, ...technical)] : []),
      ];
      const accidental = continues ? undefined : part.accidentals.next(head.pitch);
      notes.push(
        xmlElement(
          'note',
          {},
          graceMark(event, alone),
          first ? undefined : xmlElement('chord', {}),
          xmlElement('pitch', {}, ...pitchParts(head.pitch, '')),
          event.grace ? undefined : duration(part, piece.value),
          ...ties.map((type) => xmlElement('tie', { type })),
          text('voice', 1),
          ...valueParts(piece.value, head.shape === 'brackets', accidental, isByTurns(passage, index)),
          notehead(head),
          ...(first ? piece.beams.map((beam, i) => text('beam', beam, { number: String(i + 1) })) : []),
          marks.length > 0 ? xmlElement('notations', {}, ...marks) : undefined,
        ),
      );
    }
  }
  return notes;
}

/** A chord that the hand can't hold at once is printed as it is broken, asked or not. */
function setInHalves(solution: Part['solution'], index: number): Breaking | undefined {
  const fingering = solution?.events[index]?.fingering;
  return fingering?.inHalves && fingering.breaking;
}

function duration(part: Part, value: NoteValue): Xml {
  return text('duration', Math.max(1, Math.round(value.length.valueOf() * 4 * part.divisions)));
}

function valueParts(value: NoteValue, small = false, accidental?: string, byTurns = false): readonly (Xml | undefined)[] {
  const tuplet = byTurns ? { notes: 2 * (value.tuplet?.notes ?? 1), inTimeOf: value.tuplet?.inTimeOf ?? 1 } : value.tuplet;
  const type = typeOf(value);
  return [
    type ? text('type', type, small ? { size: 'cue' } : {}) : undefined,
    ...Array.from({ length: value.dots }, () => xmlElement('dot', {})),
    accidental ? text('accidental', accidental) : undefined,
    tuplet
      ? xmlElement('time-modification', {}, text('actual-notes', tuplet.notes), text('normal-notes', tuplet.inTimeOf))
      : undefined,
  ];
}

function notehead({ shape }: Head): Xml | undefined {
  if (shape === 'diamond') return text('notehead', 'diamond', { filled: 'no' });
  return shape === 'brackets' ? text('notehead', 'normal', { parentheses: 'yes' }) : undefined;
}

/** Harmonic mark, string, fingers and hints. The finger with which a cellist's hand opens has the trade's `x` before it. A note that is only held on repeats the harmonic mark alone. */
function technicalOf(head: Head, continues: boolean, opening: Finger | undefined): readonly Xml[] {
  const { harmonic } = head;
  const marks: Xml[] = [];
  if (harmonic) {
    const circle = head.shape === 'plain' && harmonic.names !== 'base-pitch';
    const parts = [harmonic.kind, harmonic.names].filter((name) => name !== undefined).map((name) => xmlElement(name, {}));
    marks.push(xmlElement('harmonic', circle ? {} : { 'print-object': 'no' }, ...parts));
  }
  if (continues) return marks;
  if (head.openString) marks.push(xmlElement('open-string', {}));
  for (const finger of head.fingers) {
    const sign = finger === opening ? 'x' : '';
    marks.push(finger === 'T' ? xmlElement('thumb-position', {}) : text('fingering', `${sign}${finger}`));
  }
  if (head.string !== undefined) marks.push(text('string', head.string));
  for (const hint of head.hints) marks.push(text('other-technical', hint));
  return marks;
}

function tupletMarks({ tuplet }: Placing): readonly Xml[] {
  return tuplet.map((type) => xmlElement('tuplet', { type, number: '1' }));
}

/** A slide comes from the note before; where nothing sounds before, it comes from below. */
function slideMarks(event: PassageEvent, before: PassageEvent | undefined): readonly Xml[] {
  if (!event.spec.slide) return [];
  if (before && before.spec.notes.length > 0 && before.spec.rest === 0) return [slideMark('stop')];
  return [xmlElement('articulations', {}, xmlElement('scoop', {}))];
}

function slideMark(type: 'start' | 'stop'): Xml {
  return xmlElement('slide', { type, number: '1' });
}
