import type { SceneBar } from '../../protocol/scene';

/** A bar as it is played; `back` marks one that the music jumps to. */
export interface PlayedBar {
  readonly bar: number;
  readonly back: boolean;
}

/**
 * The bars in the order they are played: repeats with their endings, then the jumps, each followed once. After a jump back repeats are
 * not made again and the last endings are played, up to `fine`, or from `to coda` to the coda (common practice, no source).
 */
export function barOrder(bars: readonly SceneBar[]): readonly PlayedBar[] {
  const order: PlayedBar[] = [];
  const repeats = repeatsOf(bars);
  let repeat = repeats[0];
  let time = 1;
  let back = false;
  /** Where the coda is left for, once a jump back asked for it. */
  let goal: 'end' | 'fine' | 'coda' | undefined;
  for (let at = 0; at < bars.length; ) {
    const bar = bars[at] as SceneBar;
    if (repeats[at] !== repeat) {
      repeat = repeats[at];
      time = 1;
    }
    const { begin, most } = repeat as Repeat;
    const here = goal ? most : time;
    if (bar.ending && !bar.ending.includes(here)) {
      at++;
      continue;
    }
    order.push({ bar: at, back });
    back = false;
    const jumps = bar.jumps ?? [];
    if (goal && jumps.includes('fine')) break;
    const coda =
      goal === 'coda' && jumps.includes('to coda') ? bars.findIndex(({ jumps: signs }) => signs?.includes('coda')) : -1;
    if (coda >= 0) {
      at = coda;
      back = true;
      goal = 'end';
      continue;
    }
    if (bar.close === ':|' && !goal && time < most) {
      time++;
      at = begin;
      back = true;
      continue;
    }
    const jump = goal ? undefined : jumps.find((word) => word.startsWith('da'));
    if (jump) {
      const segno = bars.findIndex(({ jumps: signs }) => signs?.includes('segno'));
      goal = jump.endsWith('coda') ? 'coda' : 'fine';
      at = jump.startsWith('dal segno') ? Math.max(0, segno) : 0;
      back = true;
      continue;
    }
    at++;
  }
  return order;
}

/** Bars that are repeated together, or would be: from one repeat sign to the next, endings included. */
interface Repeat {
  readonly begin: number;
  /** How often it is played: twice, or as often as its endings say. */
  readonly most: number;
}

/** For each bar the repeat that it stands in. */
function repeatsOf(bars: readonly SceneBar[]): readonly Repeat[] {
  const repeats: Repeat[] = [];
  let begin = 0;
  const close = (end: number): void => {
    const most = Math.max(2, ...bars.slice(begin, end).flatMap(({ ending }) => ending ?? []));
    const repeat = { begin, most };
    for (let at = begin; at < end; at++) repeats.push(repeat);
    begin = end;
  };
  for (const [at, bar] of bars.entries()) {
    const before = bars[at - 1];
    // A further ending still belongs to the repeat before it.
    if (before && (bar.open || (!bar.ending && (before.close === ':|' || before.ending)))) close(at);
  }
  close(bars.length);
  return repeats;
}
