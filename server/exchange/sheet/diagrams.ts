import { t } from '../../l10n/translate';
import type { SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { type BoardDrawing, drawBoard, scaleToFit } from '../../scene/board/board';
import { reachOfNotes } from '../../scene/board/frame';
import { mannerLabel, printedPitch } from '../../scene/words';

/**
 * Which notes get a small fingerboard: none; of harmonics, each node of a string and each kind of artificial harmonic once, whichever
 * finger takes it and wherever the hand is; or the ones named by bar and beat, `3:2` or `3:5/2`.
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
const LENGTH = 300;
/** Diagrams beside each other, at most. */
export const COLUMNS = 4;

export interface Chosen {
  /** Rows of diagrams to one scale, as long as each other to one: a last row never holds a lone one. */
  readonly rows: readonly (readonly Diagram[])[];
  /** Names among those chosen at which no note begins. */
  readonly unknown: readonly string[];
}

export function diagramsOf(passage: ScenePassage, choice: DiagramChoice): Chosen {
  if (choice === 'none') return { rows: [], unknown: [] };
  if (choice === 'harmonics') return { rows: inRows(passage, firstHarmonics(passage)), unknown: [] };
  const events: SceneEvent[] = [];
  const unknown: string[] = [];
  for (const name of choice) {
    const found = passage.events.find((event) => event.notes.length > 0 && barBeat(event) === name.trim());
    if (!found) unknown.push(name);
    else if (!events.includes(found)) events.push(found);
  }
  return { rows: inRows(passage, events), unknown };
}

function inRows(passage: ScenePassage, events: readonly SceneEvent[]): Chosen['rows'] {
  const count = Math.ceil(events.length / COLUMNS);
  return Array.from({ length: count }, (_, row) => {
    const here = events.slice(Math.ceil((row * events.length) / count), Math.ceil(((row + 1) * events.length) / count));
    const end = Math.max(...here.map(({ notes }) => reachOfNotes(passage.board, notes)));
    return here.map((event) => diagram(passage, event, end));
  });
}

/** `3:2`: bar and beat, as they are chosen. */
export function barBeat({ bar, beat }: SceneEvent): string {
  return `${bar}:${beat.replace(/^(\d+) (\d+)\/(\d+)$/, (_, whole, top, under) => `${Number(whole) * Number(under) + Number(top)}/${under}`)}`;
}

function firstHarmonics({ events }: ScenePassage): readonly SceneEvent[] {
  const seen = new Set<string>();
  return events.filter(({ notes }) => {
    const key = notes.map(placed).join('+');
    if (!notes.some(({ kind }) => kind === 'natural' || kind === 'artificial') || seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

function placed({ string, kind, stop, touch }: SceneNote): string {
  return kind === 'artificial' ? `${touch?.fraction}` : [string, stop?.pitch, touch?.fraction].join(' ');
}

function diagram(passage: ScenePassage, event: SceneEvent, end: number): Diagram {
  return {
    drawing: drawBoard(passage, event.index, { scale: scaleToFit(end, LENGTH, true), end, upright: true, next: false }),
    place: t('Bar {bar}, beat {beat}', { bar: event.bar, beat: event.beat }),
    words: event.notes.map((note) => `${printedPitch(note.sounding)}: ${mannerLabel(note)}`).join('; '),
  };
}
