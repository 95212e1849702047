import { contactPoint } from '../../instrument/bow';
import { t } from '../../l10n/translate';
import type { SceneNote } from '../../protocol/scene';
import { filled, outlined } from '../look';
import { num, tag } from '../svg';
import { mmWords } from '../words';
import type { Frame } from './frame';

/** Half the height of the marks across the string, mm. */
const HALF = 4;

/** Where the bow meets the string for this note: the stretch that serves, a line at its best; nothing where the drawing ends before. */
export function bowPlace(frame: Frame, note: SceneNote): string {
  const { board, px, end, upright } = frame;
  const string = board.strings[note.stringIndex];
  if (!string) return '';
  const { nearest, best, farthest } = contactPoint({ family: board.family, string, length: note.length, partial: note.partial });
  if (board.length - farthest > end) return '';
  const across = frame.across(note.stringIndex, board.length - best);
  const corner = (distance: number, side: number): string => {
    const { x, y } = frame.at(board.length - distance, across + side * HALF);
    return `${num(x)} ${num(y)}`;
  };
  const band = `M${corner(farthest, -1)}L${corner(nearest, -1)}L${corner(nearest, 1)}L${corner(farthest, 1)}Z`;
  const words = frame.at(board.length - best, across - HALF - 4 * px);
  const label = tag(
    'text',
    { x: words.x, y: words.y, ...filled('ink'), 'font-size': 10.5 * px, 'text-anchor': 'middle' },
    t('bow, {nearest} to {farthest}', { nearest: Math.round(nearest), farthest: mmWords(farthest) }),
  );
  return tag(
    'g',
    { class: 'pw-bow', 'data-best': num(best) },
    tag('path', { ...filled('ink'), 'fill-opacity': 0.16, d: band }) +
      tag('path', { ...outlined('ink', 1.6 * px), d: `M${corner(best, -1)}L${corner(best, 1)}` }) +
      (upright ? '' : label),
  );
}
