import type { Span } from '../../grammar/tree';
import { pitchName } from '../music/pitch';
import type { Settings } from '../protocol/settings';
import { wayLabel } from '../scene/scene';
import { printedPitch } from '../scene/words';
import type { SolvedEvent } from '../solver/solution';
import type { Way } from '../solver/way';
import type { SolvedReading } from './reading';
import { referenceNotes } from './reference-notes';

/** A few signs shown in the text without being in it. */
export interface Inlay {
  /** Offset in the file that it stands behind. */
  readonly at: number;
  readonly label: string;
  readonly tooltip: string;
}

/** The chosen fingering behind every note, and where asked for, the stopped notes that a natural harmonic can check. */
export function inlays(reading: SolvedReading, range: Span, settings: Settings): readonly Inlay[] {
  const found: Inlay[] = [];
  for (const [index, { events }] of reading.resolved.passages.entries()) {
    const solution = reading.solutions[index];
    if (!solution) continue;
    const references = settings.referenceNotes ? referenceNotes(solution) : undefined;
    for (const [event, { source, spec }] of events.entries()) {
      const line = reading.tree.lines[source.line];
      // A motif's notes all stand at its use; a row of fingerings there would tell nothing.
      if (!line || source.definition || line.start > range.end || line.end < range.start) continue;
      const solved = solution.events[event];
      source.notes.forEach((place, note) => {
        const way = solved?.fingering.ways[note];
        if (!solved || !way) return;
        const at = line.start + place.form.end;
        // Hints already say it in the text.
        if (settings.fingeringHints && !place.hints && !isHeld(spec.held, note)) found.push(fingering(at, way, solved));
        const reference = references?.get(event);
        if (reference && note === 0) found.push({ at, ...reference });
      });
    }
  }
  return found.filter(({ at }) => range.start <= at && at <= range.end);
}

function isHeld(held: readonly (readonly [number, number])[], note: number): boolean {
  return held.some(([, here]) => here === note);
}

function fingering(at: number, way: Way, { fingering: { barred } }: SolvedEvent): Inlay {
  const tooltip = `${wayLabel(way)}${barred ? ', one finger over both strings' : ''}, sounds ${printedPitch(pitchName(way.sounding))}`;
  return { at, label: shortLabel(way), tooltip };
}

/** `III 1/3 2`, `III 4th 1-4`, `II 3`, `II 0`: string, how, fingers. */
function shortLabel({ kind, stringName, stop, touch, interval }: Way): string {
  switch (kind) {
    case 'open':
      return `${stringName} 0`;
    case 'stopped':
      return `${stringName} ${stop?.finger}`;
    case 'natural':
      return `${stringName} ${touch?.k}/${touch?.n} ${touch?.finger}`;
    case 'artificial':
      return `${stringName} ${interval ? SHORT_INTERVALS[interval] : ''} ${stop?.finger}-${touch?.finger}`;
  }
}

const SHORT_INTERVALS = { 'minor-third': 'm3', third: 'M3', fourth: 'P4', fifth: 'P5', sixth: 'M6', octave: 'P8' } as const;
