import { t } from '../../../server/l10n/translate';
import { filled, outlined } from '../../../server/scene/look';
import { tag } from '../../../server/scene/svg';

const SIZE = { width: 320, height: 84 };
/** The string, the middles of the fingertips on it, and the line of the measure below, px. */
const STRING = 30;
const MEASURE = 62;
const NUT = 24;
const TIP = 9;

/** Where a finger is drawn along the string, px: spread evenly, the thumb before them all. */
function place(finger: string): number {
  return NUT + 40 + 52 * (finger === 'T' ? 0 : Number(finger));
}

/** What is measured of a pair of fingers: along the string, from the middle of one fingertip to the middle of the other. */
export function pairPicture(pair: string): string {
  const [low = '1', high = '4'] = pair.split('-');
  const ends = [place(low), place(high)] as const;
  const fingers = ['T', '1', '2', '3', '4'].map((finger) => {
    const taken = finger === low || finger === high;
    if (finger === 'T' && !taken) return '';
    const circle = tag('circle', { cx: place(finger), cy: STRING, r: TIP, ...(taken ? filled('touch') : outlined('line', 1)) });
    const number = tag(
      'text',
      { x: place(finger), y: STRING - TIP - 5, 'text-anchor': 'middle', 'font-size': 12, ...filled(taken ? 'ink' : 'faint') },
      finger,
    );
    return circle + number;
  });
  const line = (x1: number, y1: number, x2: number, y2: number) => tag('line', { x1, y1, x2, y2, ...outlined('ink', 1.2) });
  return tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${SIZE.width} ${SIZE.height}`,
      ...SIZE,
      role: 'img',
      'aria-label': t(
        'Fingers {low} and {high} on a string; the measure goes from the middle of one fingertip to the middle of the other',
        { low, high },
      ),
    },
    [
      line(NUT, STRING - 12, NUT, STRING + 12),
      line(NUT, STRING, SIZE.width, STRING),
      ...fingers,
      ...ends.map((x) => line(x, STRING + TIP + 4, x, MEASURE + 5)),
      line(ends[0], MEASURE, ends[1], MEASURE),
      tag(
        'text',
        { x: (ends[0] + ends[1]) / 2, y: MEASURE + 16, 'text-anchor': 'middle', 'font-size': 12, ...filled('ink') },
        'mm',
      ),
    ].join(''),
  );
}
