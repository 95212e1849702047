import type { Settings } from '../../server/protocol/settings';
import type { Way } from '../../server/solver/way';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { type Snapshot, snapshot } from '../../server/workspace/snapshot';

/** A text read and fingered, as every feature sees it. */
export function reading(text: string, settings: Partial<Settings> = {}): Snapshot {
  return snapshot(text, 1, { ...DEFAULT_SETTINGS, ...settings });
}

/** How a note is played, in a few signs: `III natural 1/4 1`, `II fourth 1-4`, `II stopped 3`, `II open`. */
export function shorthand({ stringName, kind, interval, stop, touch }: Way): string {
  switch (kind) {
    case 'open':
      return `${stringName} open`;
    case 'stopped':
      return `${stringName} stopped ${stop?.finger}`;
    case 'natural':
      return `${stringName} natural ${touch?.k}/${touch?.n} ${touch?.finger}`;
    case 'artificial':
      return `${stringName} ${interval} ${stop?.finger}-${touch?.finger}`;
  }
}

/** The fingering of every event of the first passage; `-` where there is none. */
export function fingerings({ solutions }: Snapshot): readonly string[] {
  return (solutions[0]?.events ?? []).map((event) => event?.fingering.ways.map(shorthand).join(' + ') ?? '-');
}
