import type { Tempo } from '../music/meter';
import { type Exact, exactly, one } from '../music/time';
import { barPieces, upbeatGap } from '../scene/bar-pieces';
import type { Solution, SolvedEvent } from '../solver/solution';
import { silence } from './drill';
import type { Exercise, ExerciseBar, Piece, Stroke } from './exercise';
import { asInPassage } from './notes';

/** A solved passage to make exercises of. */
export interface Source {
  readonly solution: Solution;
  readonly bars: readonly SourceBar[];
  /** Chance of a clean run that a safe tempo keeps, 0 to 1. */
  readonly chance: number;
  /** Events to practise, worst first, where somebody knows better than the solver which are hard: those that failed in a recording. */
  readonly failed?: readonly number[];
  /** An exercise read and fingered as it would be in a file of its own; undefined where it can't be played. */
  rehearse(exercise: Exercise): Solution | undefined;
}

/** A bar of the passage with its rests in it; an event that can't be played is a rest. */
export interface SourceBar extends ExerciseBar {
  readonly number: number;
  readonly pieces: readonly SourcePiece[];
}

export interface SourcePiece extends Piece {
  /** Index of the event it came from; absent for a rest. */
  readonly event?: number;
}

/** The whole passage, bar by bar, as exercises write music; an upbeat is filled up from the front. */
export function sourceBars(solution: Solution): readonly SourceBar[] {
  const { passage } = solution;
  const strokes = strokesOf(solution);
  let tempo: Tempo | undefined;
  return passage.bars.map((bar) => {
    const { number, firstEvent, endEvent, meter } = bar;
    const gap = upbeatGap(bar);
    // Grace notes are an ornament, not what is practised; without their time they would only be in the way.
    const timed = barPieces(passage, bar).filter(({ event }) => event === undefined || !passage.events[event]?.grace);
    const pieces = timed.map(({ event, duration }): SourcePiece => {
      const length = one(duration);
      return event === undefined ? silence(length) : pieceOf(solution, event, length, strokes[event]);
    });
    if (firstEvent < endEvent) tempo = passage.events[firstEvent]!.tempo;
    const filled = gap.gt(0) ? [silence(one(gap)), ...pieces] : pieces;
    return { number, pieces: filled, tempo: tempo ?? WITHOUT_NOTES, ...(meter && { meter }) };
  });
}

/** Of bars before the first note; nothing is played in them. */
const WITHOUT_NOTES: Tempo = { beat: exactly(1, 4), bpm: 60 };

function pieceOf(solution: Solution, event: number, duration: Exact, stroke: Stroke | undefined): SourcePiece {
  const { spec } = solution.passage.events[event]!;
  const ways = solution.events[event]?.fingering.ways;
  if (!ways) return { duration, notes: [] };
  const after = solution.events[event + 1] ? (solution.passage.events[event + 1]?.spec.held ?? []) : [];
  const before = solution.events[event - 1] ? spec.held : [];
  return {
    event,
    duration,
    dynamic: spec.dynamic,
    ...(spec.slide && { slide: true }),
    ...(stroke && { stroke }),
    notes: spec.notes.map((note, index) =>
      asInPassage(note, ways[index]!, {
        tied: after.some(([there]) => there === index),
        held: before.some(([, here]) => here === index),
      }),
    ),
  };
}

/** The bow stroke of every event that shares one, or has a written direction. */
function strokesOf({ passage }: Solution): readonly (Stroke | undefined)[] {
  let stroke: Stroke | undefined;
  return passage.events.map(({ spec, bow }, event) => {
    const joined = passage.events[event - 1]?.spec.slurred ?? false;
    if (!joined) stroke = bow || spec.slurred ? { word: bow ?? 'slur' } : undefined;
    return stroke;
  });
}

/** How hard an event is: its share of the cost, nats; 0 where it can't be played. */
export function costAt({ solution }: Source, event: number | undefined): number {
  return (event === undefined ? undefined : solution.events[event]?.cost) ?? 0;
}

/** The fingered events with their index. */
export function solvedEvents({ solution }: Source): readonly { readonly event: number; readonly solved: SolvedEvent }[] {
  return solution.events.flatMap((solved, event) => (solved?.fingering.ways.length ? [{ event, solved }] : []));
}
