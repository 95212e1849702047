import { pathAt } from '../../grammar/at';
import { readLine } from '../../grammar/line';
import type { Edit, Line } from '../../grammar/tree';
import { eventsOf, itemsOf } from '../../grammar/walk';
import type { Passage, PassageEvent, Setup } from '../passage/passage';
import { hintsFor, pinEdits } from '../rules/pinning';
import { alternatives } from '../solver/alternatives';
import type { Fingering } from '../solver/solution';
import { writtenOut } from './motifs';
import type { Reading, SolvedReading } from './reading';

/** Fingerings to write into the text, by event index. */
export type Choices = ReadonlyMap<number, Fingering>;

/**
 * The edits that write fingerings into the text. A motif whose notes are among them is written out, since its notes
 * are not in the text otherwise.
 */
export function pinAll(reading: Reading, passage: Passage, choices: Choices): readonly Edit[] {
  const edits: Edit[] = [];
  const motifs = new Set<string>();
  for (const [event, fingering] of choices) {
    const at = passage.events[event];
    if (!at) continue;
    if (!at.source.definition) edits.push(...pinEdits(reading.tree, passage, event, fingering));
    else if (!motifs.has(useOf(at))) {
      motifs.add(useOf(at));
      edits.push(...motifEdits(reading, passage, at, choices));
    }
  }
  return edits;
}

function motifEdits(reading: Reading, passage: Passage, at: PassageEvent, choices: Choices): readonly Edit[] {
  const line = reading.tree.lines[at.source.line] as Line;
  const use = pathAt(reading.tree, line.start + at.source.span.start).items.at(-1);
  const edit = use?.kind === 'motif' ? writtenOut(reading, at.source.line, use) : undefined;
  if (!edit) return [];
  const played = [...passage.events.entries()].filter(([, event]) => useOf(event) === useOf(at) && event.spec.notes.length > 0);
  return [{ span: edit.span, text: withHints(edit.text, played, choices, passage.setup) }];
}

/** The motif's notes with the hints of those that have been chosen. */
function withHints(text: string, played: readonly (readonly [number, PassageEvent])[], choices: Choices, setup: Setup): string {
  const events = eventsOf(itemsOf(readLine(text)));
  // A note that can't be read has no event; then it is not certain which hint is whose.
  if (events.length !== played.length) return text;
  const hints: { start: number; end: number; text: string }[] = [];
  for (const [at, { notes }] of events.entries()) {
    const [index, { spec }] = played[at] as (typeof played)[number];
    notes.forEach((note, number) => {
      const fingering = choices.get(index);
      const way = fingering?.ways[number];
      const asked = spec.notes[number];
      if (!fingering || !way || !asked) return;
      const place = note.hints ?? { start: note.end, end: note.end };
      hints.push({
        start: place.start,
        end: place.end,
        text: `${note.hints ? '' : ' '}[${hintsFor(way, asked, fingering, setup)}]`,
      });
    });
  }
  return hints.reduceRight((now, hint) => now.slice(0, hint.start) + hint.text + now.slice(hint.end), text);
}

/** The same for all notes of one use of a motif, and for no others. */
function useOf({ source }: PassageEvent): string {
  return source.definition ? `${source.line}:${source.span.start}` : '';
}

/** Which alternative of which event a user has chosen. */
export interface Choice {
  readonly passage: number;
  readonly event: number;
  /** Index into what `alternatives` gives for that event. */
  readonly alternative: number;
}

/** The edits that write a chosen alternative into the text; undefined where there is no such choice. */
export function pinChosen(reading: SolvedReading, { passage, event, alternative }: Choice): readonly Edit[] | undefined {
  const solution = reading.solutions[passage];
  const chosen = solution && alternatives(solution, event)[alternative];
  return chosen && pinAll(reading, solution.passage, new Map([[event, chosen.fingering]]));
}
