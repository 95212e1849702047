import { diffArrays } from 'diff';
import { percent } from '../scene/words';
import { snapshot } from '../workspace/snapshot';
import { EXIT } from './cannot-run';
import { fileName } from './examine';
import { readInput } from './inputs';
import { reportOf } from './json';
import { type PlayerOptions, settingsFrom } from './options';
import type { EventReport, NoteReport, PassageReport } from './report';
import { fingers, manner } from './table';

/** `passagework diff A B`: how the fingering changed, in words. Exit code 1 when it did. */
export function diff(before: string, after: string, options: PlayerOptions): number {
  const settings = settingsFrom(options);
  const read = (name: string) => reportOf(snapshot(readInput(name), 0, settings), settings.safeChance, fileName(name)).passages;
  const told = changes(read(before), read(after));
  console.log(told.length === 0 ? 'The fingering is the same.' : told.join('\n'));
  return told.length === 0 ? EXIT.clean : EXIT.findings;
}

/** Passages of the same title belong together; those without one, by their order among such. */
export function changes(before: readonly PassageReport[], after: readonly PassageReport[]): readonly string[] {
  const old = new Map(before.map((passage, index) => [keyOf(passage, index), passage]));
  const now = new Map(after.map((passage, index) => [keyOf(passage, index), passage]));
  const gone = [...old].filter(([key]) => !now.has(key)).map(([, passage]) => `${nameOf(passage)}: taken out.`);
  const kept = [...now].flatMap(([key, passage]) => {
    const earlier = old.get(key);
    return earlier ? passageChanges(earlier, passage) : [`${nameOf(passage)}: new.`];
  });
  return [...gone, ...kept];
}

function passageChanges(before: PassageReport, after: PassageReport): string[] {
  const lines: string[] = [];
  let old = 0;
  let now = 0;
  for (const part of diffArrays(before.events as EventReport[], after.events as EventReport[], { comparator: sameDemand })) {
    for (let i = 0; i < part.value.length; i++) {
      if (part.added)
        lines.push(`${placeOf(after.events[now]!)}: ${soundOf(after.events[now]!)} is new: ${wordsOf(after.events[now]!)}.`);
      else if (part.removed) lines.push(`${placeOf(before.events[old]!)}: ${soundOf(before.events[old]!)} is gone.`);
      else lines.push(...eventChanges(before.events[old]!, after.events[now]!));
      if (!part.added) old++;
      if (!part.removed) now++;
    }
  }
  if (percent(before.clean) !== percent(after.clean))
    lines.push(`chance of a clean run: ${percent(before.clean)}, now ${percent(after.clean)}.`);
  if (tempoOf(before) !== tempoOf(after)) lines.push(`fastest safe tempo: ${tempoOf(before)}, now ${tempoOf(after)}.`);
  return lines.map((line) => `${nameOf(after)}, ${line}`);
}

function eventChanges(before: EventReport, after: EventReport): string[] {
  const [was, is] = [wordsOf(before), wordsOf(after)];
  return was === is ? [] : [`${placeOf(after)}: ${soundOf(after)} was ${was}; now ${is}.`];
}

/** The same notes asked for equally long: what can be compared, whatever bar it has moved to. */
function sameDemand(a: EventReport, b: EventReport): boolean {
  return a.duration === b.duration && soundOf(a) === soundOf(b);
}

function soundOf(event: EventReport): string {
  return event.notes.map((note) => note.sounding).join(' with ') || 'a note that cannot be played';
}

function wordsOf(event: EventReport): string {
  return event.notes.map(noteWords).join(' with ') || 'without a fingering';
}

/** `natural 1/3 on III, finger 3`. */
function noteWords(note: NoteReport): string {
  const used = fingers(note);
  const finger = note.kind === 'open' ? '' : `, ${used.includes('-') ? 'fingers' : 'finger'} ${used}`;
  return `${manner(note)} on ${note.string}${finger}`;
}

function placeOf(event: EventReport): string {
  return `bar ${event.bar}, beat ${event.beat}`;
}

function tempoOf({ ceiling }: PassageReport): string {
  return ceiling ? `${ceiling.beat} = ${ceiling.bpm}` : 'none';
}

function keyOf(passage: PassageReport, index: number): string {
  return passage.title || `\n${index}`;
}

function nameOf(passage: PassageReport): string {
  return passage.title || 'Passage';
}
