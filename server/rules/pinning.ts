import { absolute, pathAt } from '../../grammar/at';
import type { Edit, Line, NoteNode, Tree } from '../../grammar/tree';
import { handPlaces, inPosition, nearestPlace, positionName } from '../hand/places';
import { pitchName } from '../music/pitch';
import type { EventSource, NoteSpec, Passage, Setup } from '../passage/passage';
import type { Fingering } from '../solver/solution';
import type { Way } from '../solver/way';
import { waysOf } from '../solver/ways';

/**
 * The hints that leave this way of playing a note and no other, as the language writes them, brackets left out. A position
 * that is asked for stays where the fingering meets it: it says where the hand is, which no way of playing a note does. One that is asked
 * `around` the note, of others too, gives way to the fingering's own.
 */
export function hintsFor(way: Way, spec: NoteSpec, { hand }: Fingering, { instrument }: Setup, around = false): string {
  const { position, breaking } = spec.pins;
  const place = nearestPlace(handPlaces(instrument), hand.mm);
  const met = position !== undefined && inPosition(place, position, instrument.family);
  const said = met ? position : position !== undefined && around ? hand.position : undefined;
  const kept = said === undefined ? '' : ` ${positionName(said)}`;
  // What its hints say is stopped or open could be meant as a harmonic without them.
  const plain = spec.pins.manner !== undefined || spec.pins.finger === 0;
  const harmonic = plain ? 'may' : spec.harmonic;
  return `${wayHints(way, { asked: spec.asked, harmonic })}${kept}${breaking ? ` ${breaking}` : ''}`;
}

/** The same wherever the hand is, for a note so asked for. */
export function wayHints(way: Way, spec: Pick<NoteSpec, 'asked' | 'harmonic'>): string {
  const { stop, touch } = way;
  const words: string[] = [way.stringName];
  switch (way.kind) {
    case 'open':
      words.push('open');
      break;
    case 'stopped':
      // Only a note that could be a harmonic needs to be told that it is none.
      if (spec.harmonic !== 'no') words.push('stopped');
      words.push(String(stop?.finger));
      break;
    case 'natural':
      if (spec.asked.kind === 'sounding') words.push('natural');
      words.push(`at ${touch?.k}/${touch?.n}`, String(touch?.finger));
      break;
    case 'artificial':
      if (spec.asked.kind === 'sounding' && way.interval) words.push(way.interval);
      words.push(`${stop?.finger}-${touch?.finger}`);
  }
  return words.join(' ');
}

/**
 * The edits that write a fingering of one event into the text, as hints behind each of its notes. None where the
 * event comes out of a motif: its notes are not in the text until the motif is written out.
 */
export function pinEdits(tree: Tree, passage: Passage, event: number, fingering: Fingering): readonly Edit[] {
  const at = passage.events[event];
  const line = at && tree.lines[at.source.line];
  if (!line || at.source.definition) return [];
  return at.source.notes.flatMap((place, index) => {
    const way = fingering.ways[index];
    const spec = at.spec.notes[index];
    if (!way || !spec) return [];
    const kept = spec.asked.kind === 'sounding' || isFormOf(way, spec, passage);
    const form = kept ? [] : [sounding(tree, line, place, way)];
    const asked: NoteSpec = kept ? spec : { ...spec, asked: { kind: 'sounding', pitch: way.sounding } };
    const around = !saysPosition(pathAt(tree, line.start + place.form.start).note);
    const text = `[${hintsFor(way, asked, fingering, passage.setup, around)}]`;
    if (!place.hints) {
      const end = line.start + place.span.end;
      return [...form, { span: { start: end, end }, text: ` ${text}` }];
    }
    const span = absolute(line, place.hints);
    return tree.text.slice(span.start, span.end) === text ? form : [...form, { span, text }];
  });
}

/** True where a note has a position among its own hints. */
export function saysPosition(note: Pick<NoteNode, 'hints'> | undefined): boolean {
  return note?.hints?.hints.some(({ kind }) => kind === 'position') ?? false;
}

/** True where the printed form of a note can be played in this way: the same string, touched and stopped at the same places. */
function isFormOf({ string, stop, touch }: Way, spec: NoteSpec, { setup }: Passage): boolean {
  return waysOf({ ...spec, pins: {} }, setup).some(
    (one) => one.string === string && one.stop?.mm === stop?.mm && one.touch?.mm === touch?.mm,
  );
}

/** Writes a printed form as the pitch it sounds, for a way of playing that is not the printed one. */
function sounding(tree: Tree, line: Line, { form }: EventSource['notes'][number], way: Way): Edit {
  const end = pathAt(tree, line.start + form.start).note?.expected?.end ?? form.end;
  return { span: absolute(line, { start: form.start, end }), text: `${pitchName(way.sounding)}${way.touch ? 'o' : ''}` };
}

/** The edits that take all hints of one event away again. */
export function unpinEdits(tree: Tree, passage: Passage, event: number): readonly Edit[] {
  const at = passage.events[event];
  const line = at && tree.lines[at.source.line];
  if (!line || at.source.definition) return [];
  return at.source.notes.flatMap(({ hints }) => {
    if (!hints) return [];
    const end = line.start + hints.end;
    let start = line.start + hints.start;
    while (start > line.start && tree.text[start - 1] === ' ') start--;
    return [{ span: { start, end }, text: '' }];
  });
}
