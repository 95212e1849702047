import { t } from '../../l10n/translate';
import type { HeardMark, HeardRun } from '../../protocol/heard';
import type { ScenePassage } from '../../protocol/scene';
import { filled, outlined } from '../look';
import { escaped, num, tag } from '../svg';
import { printedPitch } from '../words';
import { VERDICTS } from './verdicts';

/** Pitch against time as one SVG; every note is a column with `data-event`, and `data-run` tells it from the same note played again. */
export interface CurveDrawing {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
}

/** px a second at least, so that notes are wide enough to be read and pressed. */
const SECOND = 56;
const LEFT = 56;
const RIGHT = 10;
/** Height of one lane, and of the lettering over and under it, px. */
const LANE = 96;
const OVER = 18;
const UNDER = 20;
const FOOT = 16;
/** Cents shown to either side; a curve farther off stays at the edge. */
const MOST = 50;
const LINES = [-50, -25, 0, 25, 50] as const;
const SIZE = 11;
/** A gap longer than this breaks the line, s. */
const GAP = 0.06;
/** A note narrower than this has room for its sign only, px. */
const NARROW = 48;

/** How far every note of a run lay from its written pitch, the second note of double stops in a lane of its own. */
export function drawPitchCurve(run: HeardRun, passage: ScenePassage, least: number): CurveDrawing {
  const lanes = Math.max(1, ...run.marks.map(({ note }) => note + 1));
  const seconds = Math.max(0.5, run.to - run.from);
  const width = Math.ceil(Math.max(least, LEFT + RIGHT + SECOND * seconds));
  const height = lanes * (OVER + LANE + UNDER) + FOOT;
  const x = (time: number) => LEFT + ((width - LEFT - RIGHT) * (time - run.from)) / seconds;
  const top = (lane: number) => lane * (OVER + LANE + UNDER) + OVER;
  const inside = [
    ...Array.from({ length: lanes }, (_, lane) => scale(top(lane), width)),
    ...Array.from({ length: Math.floor(seconds) + 1 }, (_, i) => second(run.from + i, x(run.from + i), height, i)),
    ...run.marks.map((mark) => column(mark, passage, x, top(mark.note))),
  ];
  const svg = tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'pw-curve',
      viewBox: `0 0 ${width} ${height}`,
      width,
      height,
      role: 'img',
      'aria-label': t('Pitch of every note in the recording, cents from written against time; the list of notes tells the same'),
      'font-family': 'system-ui, "Segoe UI", Helvetica, Arial, sans-serif',
    },
    inside.join(''),
  );
  return { svg, width, height };
}

function scale(top: number, width: number): string {
  return LINES.map((cents) => {
    const y = at(top, cents);
    const label = tag(
      'text',
      { x: LEFT - 6, y: y + 4, ...filled('faint'), 'font-size': SIZE, 'text-anchor': 'end' },
      cents === 0 ? escaped(t('0 cents')) : `${cents > 0 ? '+' : '-'}${Math.abs(cents)}`,
    );
    const line = {
      ...outlined(cents === 0 ? 'faint' : 'line', cents === 0 ? 1.2 : 0.5),
      d: `M${LEFT} ${num(y)}H${width - RIGHT}`,
    };
    return tag('path', line) + label;
  }).join('');
}

function second(time: number, x: number, height: number, index: number): string {
  const letter = { x, y: height - 4, ...filled('faint'), 'font-size': SIZE, 'text-anchor': 'middle' };
  return index % 2 === 0 ? tag('text', letter, `${time.toFixed(0)} s`) : '';
}

function column(mark: HeardMark, passage: ScenePassage, x: (time: number) => number, top: number): string {
  const { event, note, verdict, words, onset, end, curve } = mark;
  const [from, to] = [x(onset), Math.max(x(onset) + 4, x(end))];
  const { mark: sign, role } = VERDICTS[verdict];
  const [word, brief] = [t(VERDICTS[verdict].word), t(VERDICTS[verdict].brief)];
  const pitch = printedPitch(passage.events[event]?.notes[note]?.sounding ?? '');
  const wide = to - from >= NARROW;
  const middle = { x: (from + to) / 2, 'text-anchor': 'middle', 'font-size': SIZE };
  const box = {
    x: from,
    y: top - OVER,
    width: to - from - 1,
    height: OVER + LANE + UNDER,
    fill: 'none',
    'pointer-events': 'all',
  };
  return tag(
    'g',
    { class: 'pw-event', 'data-event': event },
    [
      tag('title', {}, escaped(`${pitch}: ${words}`)),
      tag('rect', { class: 'pw-hit', ...box }),
      tag('path', { ...outlined('line', 0.5), d: `M${num(from)} ${top}v${LANE}` }),
      tag('text', { ...middle, y: top - 5, ...filled('ink'), 'font-weight': 600 }, escaped(pitch)),
      tag('path', { ...outlined('touch', 1.6), 'stroke-linejoin': 'round', d: line(curve, x, top) }),
      tag(
        'text',
        { ...middle, y: top + LANE + 14, ...filled(role) },
        wide && verdict !== 'spoke' ? `${sign} ${escaped(to - from > 8 * word.length ? word : brief)}` : sign,
      ),
    ].join(''),
  );
}

function line({ seconds, cents }: HeardMark['curve'], x: (time: number) => number, top: number): string {
  return seconds
    .map((time, i) => {
      const broken = i === 0 || time - (seconds[i - 1] as number) > GAP;
      return `${broken ? 'M' : 'L'}${num(x(time))} ${num(at(top, cents[i] as number))}`;
    })
    .join('');
}

function at(top: number, cents: number): number {
  return top + (LANE * (MOST - Math.max(-MOST, Math.min(MOST, cents)))) / (2 * MOST);
}
