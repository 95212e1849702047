import type { SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { type BoardDrawing, drawBoard, scaleToFit } from '../../scene/board/board';
import { reachOfNotes } from '../../scene/board/frame';
import { mannerLabel, printedPitch } from '../../scene/words';

/**
 * Which notes get a small fingerboard: none; the first of every harmonic that is fingered differently;
 * or the ones named by bar and beat, `3:2` or `3:5/2`.
 */
export type DiagramChoice = 'none' | 'harmonics' | readonly string[];

/** A fingerboard with one note's fingers, and the lines under it. */
export interface Diagram {
  readonly drawing: BoardDrawing;
  /** `Bar 2, beat 1`. */
  readonly place: string;
  /** What sounds and how it is played. */
  readonly words: string;
}

/** Length of one diagram, nut on top, px of the drawing. */
const LENGTH = 340;

export interface Chosen {
  readonly diagrams: readonly Diagram[];
  /** Names among those chosen at which no note begins. */
  readonly unknown: readonly string[];
}

export function diagramsOf(passage: ScenePassage, choice: DiagramChoice): Chosen {
  if (choice === 'none') return { diagrams: [], unknown: [] };
  if (choice === 'harmonics') return { diagrams: firstHarmonics(passage).map((event) => diagram(passage, event)), unknown: [] };
  const events: SceneEvent[] = [];
  const unknown: string[] = [];
  for (const name of choice) {
    const found = passage.events.find((event) => event.notes.length > 0 && barBeat(event) === name.trim());
    if (!found) unknown.push(name);
    else if (!events.includes(found)) events.push(found);
  }
  return { diagrams: events.map((event) => diagram(passage, event)), unknown };
}

/** `3:2`: bar and beat, as they are chosen. */
export function barBeat({ bar, beat }: SceneEvent): string {
  return `${bar}:${beat.replace(/^(\d+) (\d+)\/(\d+)$/, (_, whole, top, under) => `${Number(whole) * Number(under) + Number(top)}/${under}`)}`;
}

function firstHarmonics({ events }: ScenePassage): readonly SceneEvent[] {
  const seen = new Set<string>();
  return events.filter(({ notes }) => {
    const key = notes.map(fingered).join('+');
    if (!notes.some(({ kind }) => kind === 'natural' || kind === 'artificial') || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function fingered({ string, kind, stop, touch }: SceneNote): string {
  return [string, kind, stop?.pitch, stop?.finger, touch?.fraction, touch?.finger].join(' ');
}

function diagram(passage: ScenePassage, event: SceneEvent): Diagram {
  const end = reachOfNotes(passage.board, event.notes);
  return {
    drawing: drawBoard(passage, event.index, { scale: scaleToFit(end, LENGTH, true), end, upright: true, next: false }),
    place: `Bar ${event.bar}, beat ${event.beat}`,
    words: event.notes.map((note) => `${printedPitch(note.sounding)}: ${mannerLabel(note)}`).join('; '),
  };
}
