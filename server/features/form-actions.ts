import { absolute, covers, pathAt } from '../../grammar/at';
import type { Edit, NoteNode, PitchNode, Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { type Pitch, pitchName, semitone, spell, step } from '../music/pitch';
import type { NoteSpec } from '../passage/passage';
import type { Way } from '../solver/way';
import type { Action } from './action';
import { eventsAt, noteAt } from './locate';
import type { SolvedReading } from './reading';

/** The same note written another way: as it sounds, as it is printed for the player, or by its other name. */
export function formActions(reading: SolvedReading, span: Span): readonly Action[] {
  const spot = pathAt(reading.tree, span.start);
  const { line, column, note } = spot;
  if (!note) return [];
  const lift = (part: Span) => absolute(line, part);
  const [event, ...others] = eventsAt(reading.resolved.passages, spot);
  const found: Action[] = [...respell(note, column, lift)];
  if (!event || others.length > 0 || event.source.source.definition) return found;
  const index = noteAt(event.source, column);
  const way = reading.solutions[event.passage]?.events[event.event]?.fingering.ways[index];
  const spec = event.source.spec.notes[index];
  if (way && spec) found.push(...(note.form.kind === 'plain' ? toPrinted(note, way, spec, lift) : toSounding(note, way, lift)));
  return found;
}

type Lift = (span: Span) => Span;

/** `D6o` as the page would show it: `<>G4`, `G4<>C5`. The string and the node go along, for a lone diamond can mean several. */
function toPrinted(node: NoteNode, way: Way, spec: NoteSpec, lift: Lift): readonly Action[] {
  if (!way.touch) return [];
  const form = way.stop ? `${pitchName(way.stop.pitch)}<>${pitchName(way.touch.pitch)}` : `<>${pitchName(way.touch.pitch)}`;
  const edits: Edit[] = [{ span: lift(node.form), text: form }];
  if (!way.stop && spec.pins.string === undefined && !node.hints) {
    const behind = lift({ start: node.end, end: node.end });
    edits.push({
      span: behind,
      text: ` [${way.stringName} at ${way.touch.k}/${way.touch.n}]`,
    });
  }
  return [{ title: t('Write it as printed: {form}', { form }), kind: 'rewrite', edits }];
}

/** `E5<>A5` by what it sounds: `E7o`. An expected pitch behind it has then been said. */
function toSounding(node: NoteNode, way: Way, lift: Lift): readonly Action[] {
  const sounding = `${pitchName(way.sounding)}o`;
  const end = node.expected?.end ?? node.form.end;
  return [
    {
      title: t('Write it as it sounds: {sounding}', { sounding }),
      kind: 'rewrite',
      edits: [{ span: lift({ start: node.form.start, end }), text: sounding }],
    },
  ];
}

/** F#5 as Gb5 and back, for the pitch under the caret. */
function respell({ form, expected }: NoteNode, at: number, lift: Lift): readonly Action[] {
  const pitches: PitchNode[] =
    form.kind === 'plain' ? [form.pitch] : form.kind === 'diamond' ? [form.touch] : [form.stop, form.touch];
  if (expected) pitches.push(expected.pitch);
  const pitch = pitches.find((one) => covers(one, at)) ?? pitches[0];
  if (!pitch) return [];
  return otherNames(pitch).map((name) => ({
    title: t('Respell {pitch} as {name}', { pitch: pitchName(pitch), name }),
    kind: 'rewrite' as const,
    edits: [{ span: lift(pitch), text: name }],
  }));
}

/** The other usual names of a pitch: with the other accidental, or with none. */
function otherNames(pitch: Pitch): readonly string[] {
  const key = semitone(pitch);
  const names = [spell(key), spell(key, true)].filter((other) => step(other) !== step(pitch)).map(pitchName);
  return [...new Set(names)];
}
