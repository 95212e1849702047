import { actions } from '../../server/features/actions';
import { hoverAt } from '../../server/features/hover';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { type Snapshot, snapshot } from '../../server/workspace/snapshot';
import { leastWork } from '../support/least-work';
import { type Figure, ms } from './figure';
import { edited, longFile } from './long-file';

/** From an edit to its diagnostics, a hover, the fixes; against reading and solving the file from scratch. And memory over a day of edits. */
export function workspaceBench(): readonly Figure[] {
  return [...response(500, 1 / 10), ...response(1250, 1 / 20), memory()];
}

function response(lines: number, most: number): readonly Figure[] {
  let text = longFile(lines);
  const scratch = leastWork(3, () => snapshot(text, 1, DEFAULT_SETTINGS));
  let last = snapshot(text, 1, DEFAULT_SETTINGS);
  const times = Array.from({ length: 60 }, (_, edit) => {
    text = edited(text, edit);
    return leastWork(1, () => {
      last = snapshot(text, edit + 2, DEFAULT_SETTINGS, last);
    });
  });
  const spots = Array.from({ length: 20 }, (_, i) => Math.floor((text.length * (i + 0.5)) / 20));
  const hovering = median(spots.map((at) => leastWork(2, () => hoverAt(last, at, last.settings))));
  const fixing = median(spots.map((at) => leastWork(2, () => actions(last, { start: at, end: at }, DEFAULT_SETTINGS))));
  const figure = (what: string, time: number, goal: number): Figure => ({
    what: `${what}, in a file of ${lines * 8} notes, against reading and solving it all`,
    ratio: time / scratch,
    goal: { most: goal },
    measured: `${ms(time)} against ${ms(scratch)}`,
  });
  return [
    figure('edit to diagnostics', median(times.slice(20)), most),
    figure('hover', hovering, most),
    figure('fixes at a place', fixing, most),
  ];
}

/** A thousand edits must not need more room than the first few hundred did. */
function memory(): Figure {
  let text = longFile(60);
  let last: Snapshot = snapshot(text, 1, DEFAULT_SETTINGS);
  const after = (edits: number, from: number) => {
    for (let edit = from; edit < from + edits; edit++) {
      text = edited(text, edit);
      last = snapshot(text, edit + 2, DEFAULT_SETTINGS, last);
    }
    globalThis.gc?.();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    return heapUsed + arrayBuffers;
  };
  // By then what is kept of steps between events (solver/link.ts) is as much as it ever is.
  const early = after(250, 0);
  const late = after(1000, 250);
  return {
    what: 'memory after 1,000 more edits, against after the first 250',
    ratio: late / early,
    goal: { most: 1.2 },
    measured: `${(late / 2 ** 20).toFixed(1)} MiB against ${(early / 2 ** 20).toFixed(1)} MiB`,
  };
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
}
