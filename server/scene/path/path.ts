import { t } from '../../l10n/translate';
import type { SceneEvent, ScenePassage } from '../../protocol/scene';
import { filled, LIGHT, outlined, type Role } from '../look';
import { num, tag } from '../svg';

/** The way of the hand over a whole passage as one SVG; `xs` are the places of the events along it, px. */
export interface PathDrawing {
  readonly svg: string;
  readonly xs: readonly number[];
  readonly top: number;
  readonly bottom: number;
}

export interface PathSize {
  readonly width: number;
  readonly height: number;
}

/** Strings by colour, I first; each change of string is lettered besides. */
const STRINGS: readonly Role[] = ['touch', 'stop', 'open', 'warn'];
const LEFT = 34;
const RIGHT = 10;
const TOP = 14;
const BOTTOM = 16;
/** Between the numbers of bars and between the letters of strings, at least, px. */
const APART = { bars: 34, letters: 16 };
const SIZE = 10;
/** A finger's dot where notes stand far apart, and the smallest among many, px; what share of the room between two notes it takes. */
const DOT = { most: 2.6, least: 0.8, share: 0.45 };

/**
 * Where the hand is against time: a line for the first finger, a dot for each finger in the colour of its string, the nut at the foot
 * as on a stave of higher and lower positions.
 */
export function drawPath(passage: ScenePassage, { width, height }: PathSize): PathDrawing {
  const { events, board } = passage;
  const last = events.at(-1);
  const length = last ? last.onset + last.seconds : 1;
  const reach = Math.max(
    board.positions[2]?.mm ?? 1,
    ...events.map((event) => Math.max(event.handMm ?? 0, ...fingers(event).map(([mm]) => mm))),
  );
  const bottom = height - BOTTOM;
  const x = (seconds: number) => LEFT + ((width - LEFT - RIGHT) * seconds) / (length || 1);
  const y = (mm: number) => bottom - ((bottom - TOP) * mm) / reach;
  const xs = events.map(({ onset }) => x(onset));
  const dot = Math.max(DOT.least, Math.min(DOT.most, (DOT.share * (width - LEFT - RIGHT)) / (events.length || 1)));
  const markup = [
    ...positionLines(passage, width, y),
    ...barLines(passage, xs, bottom),
    tag('path', { ...outlined('faint', Math.min(1.2, dot)), d: handLine(events, xs, x, y) }),
    ...events.flatMap((event, index) => dots(event, xs[index] as number, y, dot)),
    ...letters(events, xs),
  ];
  const label = passage.title
    ? t('Path of the hand: {title}, {notes} notes', { title: passage.title, notes: events.length })
    : t('Path of the hand, {notes} notes', { notes: events.length });
  const svg = tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'pw-path',
      viewBox: `0 0 ${num(width)} ${height}`,
      width,
      height,
      role: 'img',
      'aria-label': label,
      'font-family': 'system-ui, "Segoe UI", Helvetica, Arial, sans-serif',
    },
    markup.join(''),
  );
  return { svg, xs, top: TOP, bottom };
}

/** The event that is drawn nearest to a place along the picture. */
export function eventNear(xs: readonly number[], x: number): number {
  return xs.reduce((best, at, index) => (Math.abs(at - x) < Math.abs((xs[best] as number) - x) ? index : best), 0);
}

function fingers({ notes }: SceneEvent): readonly (readonly [mm: number, string: number])[] {
  return notes.flatMap(({ kind, stop, touch, stringIndex }) =>
    kind === 'open'
      ? [[0, stringIndex] as const]
      : [stop, touch].flatMap((finger) => (finger ? [[finger.mm, stringIndex] as const] : [])),
  );
}

function positionLines({ board }: ScenePassage, width: number, y: (mm: number) => number): readonly string[] {
  return board.positions
    .filter(({ mm }, index) => index % 2 === 0 && y(mm) > TOP - 1)
    .flatMap(({ name, mm }) => [
      tag('path', { ...outlined('line', 0.6), d: `M${LEFT} ${num(y(mm))}H${num(width - RIGHT)}` }),
      tag('text', { x: LEFT - 5, y: y(mm) + 3, ...filled('faint'), 'font-size': SIZE, 'text-anchor': 'end' }, name),
    ]);
}

function barLines({ bars, events }: ScenePassage, xs: readonly number[], bottom: number): readonly string[] {
  let before = Number.NEGATIVE_INFINITY;
  return bars.flatMap(({ number, firstEvent, endEvent }) => {
    const x = xs[firstEvent];
    if (x === undefined || firstEvent >= endEvent || events.length === 0 || x - before < APART.bars) return [];
    before = x;
    return [
      tag('path', { ...outlined('line', 0.6), d: `M${num(x)} ${TOP}V${num(bottom)}` }),
      tag('text', { x, y: bottom + 12, ...filled('faint'), 'font-size': SIZE, 'text-anchor': 'middle' }, String(number)),
    ];
  });
}

/** Steps where the hand stays and slants where it moves; broken where nothing can be played. */
function handLine(
  events: readonly SceneEvent[],
  xs: readonly number[],
  x: (seconds: number) => number,
  y: (mm: number) => number,
): string {
  let d = '';
  let drawn = false;
  events.forEach(({ handMm, onset, seconds }, index) => {
    if (handMm === undefined) {
      drawn = false;
      return;
    }
    d += `${drawn ? 'L' : 'M'}${num(xs[index] as number)} ${num(y(handMm))}H${num(x(onset + seconds * 0.8))}`;
    drawn = true;
  });
  return d;
}

function dots(event: SceneEvent, x: number, y: (mm: number) => number, r: number): readonly string[] {
  if (event.notes.length === 0) {
    return [tag('text', { x, y: TOP + 8, ...filled('warn'), 'font-size': 12, 'font-weight': 700, 'text-anchor': 'middle' }, '?')];
  }
  return fingers(event).map(([mm, string]) => {
    const role = STRINGS[string] ?? 'ink';
    return tag('circle', { cx: x, cy: y(mm), r, class: `pw-fill-${role}`, fill: LIGHT[role] });
  });
}

/** The string over the notes, where it changes and there is room. */
function letters(events: readonly SceneEvent[], xs: readonly number[]): readonly string[] {
  let before = '';
  let free = Number.NEGATIVE_INFINITY;
  return events.flatMap(({ notes }, index) => {
    const name = notes.map(({ string }) => string).join('·');
    const x = xs[index] as number;
    if (name === '' || name === before || x < free) return [];
    before = name;
    free = x + APART.letters + 4 * name.length;
    const role = STRINGS[notes[0]?.stringIndex ?? 0] ?? 'ink';
    return [
      tag(
        'text',
        { x, y: TOP - 4, class: `pw-fill-${role}`, fill: LIGHT[role], 'font-size': SIZE, 'text-anchor': 'middle' },
        name,
      ),
    ];
  });
}
