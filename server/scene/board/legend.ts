import { t } from '../../l10n/translate';
import type { SceneBoard, SceneNote } from '../../protocol/scene';
import { outlined } from '../look';
import { num, tag } from '../svg';
import { frameOf } from './frame';
import { type Manner, noteMarks } from './marks';

export interface LegendItem {
  readonly svg: string;
  readonly words: string;
}

const MM = 60;
const NOTE = {
  string: 'II',
  stringIndex: 1,
  partial: 1,
  sounding: '',
  hz: 0,
  cents: 0,
  length: 0,
  held: false,
} as const;
const STOP = { pitch: '', finger: '1', mm: MM };
const TOUCH = { pitch: '', finger: '4', mm: MM, fraction: '' };

/** What the marks on the board mean, each drawn by the code that draws it there. */
export function legend(board: SceneBoard): readonly LegendItem[] {
  return [
    item(
      board,
      { ...NOTE, kind: 'stopped', stop: { ...STOP, mm: MM + 3 } },
      'now',
      t('finger presses; the string ends at its flat edge'),
    ),
    item(board, { ...NOTE, kind: 'natural', touch: TOUCH }, 'now', t('finger only touches')),
    item(
      board,
      { ...NOTE, kind: 'natural', touch: TOUCH, tolerance: 6.5 },
      'now',
      t('its room: the note speaks anywhere in the band'),
    ),
    item(board, { ...NOTE, kind: 'open' }, 'now', t('open string')),
    item(board, { ...NOTE, kind: 'natural', touch: TOUCH }, 'next', t('where the finger goes next')),
  ];
}

/** Shown around the mark, mm, at this many pixels to the mm. */
const AROUND = { along: 10, across: 5.4 };
const SCALE = 2.6;

function item(board: SceneBoard, note: SceneNote, manner: Manner, words: string): LegendItem {
  const frame = frameOf(board, { scale: SCALE, upright: false, end: 2 * MM });
  const mm = note.kind === 'open' ? -4.5 : MM;
  const y = frame.across(note.stringIndex, Math.max(mm, 0));
  const line = tag('path', {
    ...outlined('faint', 0.5),
    d: `M${num(Math.max(mm - AROUND.along, 0))} ${num(y)}H${num(mm + AROUND.along)}`,
  });
  const nut = note.kind === 'open' ? tag('path', { ...outlined('ink', 1.4), d: `M-0.7 ${num(y - 4)}V${num(y + 4)}` }) : '';
  const svg = tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: [mm - AROUND.along, y - AROUND.across, 2 * AROUND.along, 2 * AROUND.across].map(num).join(' '),
      width: Math.round(2 * AROUND.along * SCALE),
      height: Math.round(2 * AROUND.across * SCALE),
      'aria-hidden': 'true',
      'font-family': 'system-ui, sans-serif',
    },
    line + nut + noteMarks(frame, note, manner),
  );
  return { svg, words };
}
