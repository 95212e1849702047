import { pathAt } from '../../grammar/at';
import { readLine } from '../../grammar/line';
import type { Edit, EventItem, Line } from '../../grammar/tree';
import { eventsOf, itemsOf } from '../../grammar/walk';
import type { Passage, PassageEvent, Setup } from '../passage/passage';
import { hintsFor, pinEdits, saysPosition } from '../rules/pinning';
import { alternatives } from '../solver/alternatives';
import type { Fingering } from '../solver/solution';
import { motifWrittenOut } from './motifs';
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
  let write: ((at: PassageEvent) => readonly Edit[]) | undefined;
  for (const [event, fingering] of choices) {
    const at = passage.events[event];
    if (!at) continue;
    if (!at.source.definition) edits.push(...pinEdits(reading.tree, passage, event, fingering));
    else if (!motifs.has(useOf(at))) {
      motifs.add(useOf(at));
      write ??= motifWriter(reading, passage, choices);
      edits.push(...write(at));
    }
  }
  return edits;
}

/** The events of one use of a motif that sound, with their indices in the passage. */
type Played = readonly (readonly [number, PassageEvent])[];

/** Writes out the use of a motif that an event comes from. */
function motifWriter(reading: Reading, passage: Passage, choices: Choices): (at: PassageEvent) => readonly Edit[] {
  const uses = playedByUse(passage);
  // A motif that is used a thousand times is mostly the same text, read once.
  const read = new Map<string, readonly EventItem[]>();
  const eventsIn = (text: string) => {
    const events = read.get(text) ?? eventsOf(itemsOf(readLine(text)));
    read.set(text, events);
    return events;
  };
  return (at) => {
    const line = reading.tree.lines[at.source.line] as Line;
    const use = pathAt(reading.tree, line.start + at.source.span.start).items.at(-1);
    const edit = use?.kind === 'motif' ? motifWrittenOut(reading, at.source.line, use) : undefined;
    if (!edit) return [];
    const text = withHints(edit.text, eventsIn(edit.text), uses.get(useOf(at)) ?? [], choices, passage.setup);
    return [{ span: edit.span, text }];
  };
}

function playedByUse({ events }: Passage): ReadonlyMap<string, Played> {
  const uses = new Map<string, (readonly [number, PassageEvent])[]>();
  for (const [index, event] of events.entries()) {
    if (event.spec.notes.length === 0) continue;
    const use = uses.get(useOf(event));
    if (use) use.push([index, event]);
    else uses.set(useOf(event), [[index, event]]);
  }
  return uses;
}

/** The motif's notes with the hints of those that have been chosen. */
function withHints(text: string, events: readonly EventItem[], played: Played, choices: Choices, setup: Setup): string {
  // A note that can't be read has no event; then it is not certain which hint is whose.
  if (events.length !== played.length) return text;
  const hints: { start: number; end: number; text: string }[] = [];
  for (const [at, { notes }] of events.entries()) {
    const [index, { spec }] = played[at] as Played[number];
    notes.forEach((note, number) => {
      const fingering = choices.get(index);
      const way = fingering?.ways[number];
      const asked = spec.notes[number];
      if (!fingering || !way || !asked) return;
      const place = note.hints ?? { start: note.end, end: note.end };
      hints.push({
        start: place.start,
        end: place.end,
        text: `${note.hints ? '' : ' '}[${hintsFor(way, asked, fingering, setup, !saysPosition(note))}]`,
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
