import { t } from '../../l10n/translate';
import type { SceneEvent } from '../../protocol/scene';
import { filled, outlined } from '../look';
import { escaped, num, tag } from '../svg';
import { mmWords, placeOnly } from '../words';
import type { Frame } from './frame';

/** The hand beside string I: from where the first finger falls to the farthest finger placed. */
export function handLane(frame: Frame, event: SceneEvent): string {
  const { px, upright } = frame;
  const placed = event.notes.flatMap(({ stop, touch }) => [stop, touch].flatMap((finger) => (finger ? [finger.mm] : [])));
  if (event.handMm === undefined || placed.length === 0) return '';
  const from = Math.min(event.handMm, ...placed);
  const to = Math.max(event.handMm, ...placed);
  const lane = -frame.half - (upright ? 42 : 34) * px;
  const tick = 5 * px;
  const points = [frame.at(from, lane + tick), frame.at(from, lane), frame.at(to, lane), frame.at(to, lane + tick)];
  const span = Math.max(...placed) - Math.min(...placed);
  const words = [
    upright ? placeOnly(event.position ?? '') : (event.position ?? ''),
    ...(span > 0.5 ? [upright ? mmWords(span) : t('{span} apart', { span: mmWords(span) })] : []),
  ];
  const d = `M${points.map(({ x, y }) => `${num(x)} ${num(y)}`).join('L')}`;
  const size = 11 * px;
  const middle = frame.at((from + to) / 2, lane - 6 * px);
  const text = upright
    ? words
        .map((word, row) =>
          tag('text', { x: middle.x, y: middle.y + (row * 13 - 2) * px, ...filled('ink'), 'font-size': size }, escaped(word)),
        )
        .join('')
    : tag(
        'text',
        { x: Math.max(middle.x, 30 * px), y: middle.y, ...filled('ink'), 'font-size': size, 'text-anchor': 'middle' },
        words.join(' · '),
      );
  return tag(
    'g',
    { class: 'pw-hand', 'data-from': num(from), 'data-to': num(to) },
    tag('path', { ...outlined('ink', 1.6 * px), 'stroke-linejoin': 'round', d }) + text,
  );
}

/** Beside the mm ruler: how far the hand goes for the next event. */
export function nextLane(frame: Frame, event: SceneEvent, next: SceneEvent): string {
  const { px, upright } = frame;
  if (event.handMm === undefined || next.handMm === undefined) return '';
  const way = next.handMm - event.handMm;
  if (Math.abs(way) < 1 || next.notes.every(({ kind }) => kind === 'open')) return '';
  const lane = frame.half + (upright ? 48 : 45) * px;
  const a = frame.at(event.handMm, lane);
  const b = frame.at(next.handMm, lane);
  const head = Math.sign(way) * 5 * px;
  const left = frame.at(next.handMm - head, lane - 3 * px);
  const right = frame.at(next.handMm - head, lane + 3 * px);
  const d = `M${num(a.x)} ${num(a.y)}L${num(b.x)} ${num(b.y)}M${num(left.x)} ${num(left.y)}L${num(b.x)} ${num(b.y)}L${num(right.x)} ${num(right.y)}`;
  const distance = mmWords(Math.abs(way));
  const words =
    way > 0
      ? t('next: hand {distance} toward the bridge', { distance })
      : t('next: hand {distance} toward the nut', { distance });
  const text = upright
    ? ''
    : tag('text', { x: Math.max(a.x, b.x) + 7 * px, y: lane + 4 * px, ...filled('faint'), 'font-size': 11 * px }, escaped(words));
  return tag(
    'g',
    { class: 'pw-way' },
    tag('path', { ...outlined('faint', 1.4 * px), 'stroke-dasharray': `${num(4 * px)} ${num(3 * px)}`, d }) + text,
  );
}
