import type { SceneEvent } from '../../protocol/scene';
import { outlined } from '../look';
import { num, tag } from '../svg';

/** Half of a hairpin's mouth, and what it keeps free at a dynamic, px. */
const MOUTH = 4.5;
const FREE = 14;

interface Under {
  readonly event: SceneEvent;
  readonly x: number;
  readonly y: number;
}

/** The hairpins of one line of music; one that began before it or goes on after it runs to the line's edge, at `end`. */
export function hairpins(row: readonly Under[], events: readonly SceneEvent[], end: number): readonly string[] {
  const first = row[0];
  let open = first && hairpinInto(events, first.event.index);
  let from = open ? first : undefined;
  const found: string[] = [];
  for (const under of row) {
    const change = changeAt(events, under.event.index);
    if (!change) continue;
    if (open && from && under !== from) found.push(drawn(open, from, under.x - FREE, Math.max(from.y, under.y)));
    open = change === 'end' ? undefined : change;
    from = under;
  }
  if (open && from) found.push(drawn(open, from, end - 6, from.y));
  return found;
}

type Hairpin = 'crescendo' | 'diminuendo';

/** What begins or ends before an event: a dynamic ends a hairpin as its own end does. */
function changeAt(events: readonly SceneEvent[], index: number): Hairpin | 'end' | undefined {
  const event = events[index];
  const begins = event?.directions?.findLast((word) => word === 'crescendo' || word === 'diminuendo');
  if (begins) return begins as Hairpin;
  const ends = event?.directions?.some((word) => word.startsWith('end '));
  return ends || event?.dynamic !== events[index - 1]?.dynamic ? 'end' : undefined;
}

/** The hairpin that an event stands in from before. */
function hairpinInto(events: readonly SceneEvent[], index: number): Hairpin | undefined {
  for (let at = index - 1; at >= 0; at--) {
    const change = changeAt(events, at);
    if (change) return change === 'end' ? undefined : change;
  }
  return undefined;
}

function drawn(kind: Hairpin, { event, x, y }: Under, to: number, down: number): string {
  const middle = Math.max(y, down) - 4;
  const dynamic = event.directions?.includes(kind) ? 10 : 0;
  const [left, right] = [x - 6 + dynamic, Math.max(to, x + 14)];
  const [narrow, wide] = kind === 'crescendo' ? [left, right] : [right, left];
  const d = `M${num(wide)} ${num(middle - MOUTH)}L${num(narrow)} ${num(middle)}L${num(wide)} ${num(middle + MOUTH)}`;
  return tag('path', { ...outlined('ink', 1, 'pw-hairpin'), d });
}
