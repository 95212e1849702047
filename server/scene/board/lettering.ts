import { t } from '../../l10n/translate';
import type { HeardMark } from '../../protocol/heard';
import type { SceneEvent, SceneNote } from '../../protocol/scene';
import { VERDICTS } from '../heard/verdicts';
import { filled, LIGHT, outlined } from '../look';
import { escaped, tag } from '../svg';
import { mmWords, printedLetter, printedPitch, sentence } from '../words';
import { FLAGS, type Frame } from './frame';

/** The strings' names and pitches before the nut. */
export function stringNames(frame: Frame): string {
  const { px, upright } = frame;
  return frame.board.strings
    .map(({ name, pitch }, index) => {
      // Where the strings are too close for their names, the names are drawn apart.
      const spread = Math.max(1, ((upright ? 21 : 14) * px) / Math.abs(frame.across(0, 0) - frame.across(1, 0)));
      const { x, y } = frame.at(-FLAGS - 6 * px, spread * frame.across(index, 0));
      const size = 12 * px;
      if (upright) {
        return (
          tag(
            'text',
            { x, y: y - 15 * px, ...filled('ink'), 'font-size': size, 'font-weight': 700, 'text-anchor': 'middle' },
            name,
          ) + tag('text', { x, y, ...filled('faint'), 'font-size': 9.5 * px, 'text-anchor': 'middle' }, printedLetter(pitch))
        );
      }
      return (
        tag(
          'text',
          { x: x - 26 * px, y: y + size * 0.35, ...filled('ink'), 'font-size': size, 'font-weight': 700, 'text-anchor': 'end' },
          name,
        ) +
        tag(
          'text',
          { x, y: y + size * 0.35, ...filled('faint'), 'font-size': 10.5 * px, 'text-anchor': 'end' },
          printedPitch(pitch),
        )
      );
    })
    .join('');
}

/** What the drawing alone does not say: the sounding pitch, the room of the finger, and what a recording holds of the note. */
export function callout(frame: Frame, note: SceneNote, heard: HeardMark | undefined): string {
  if (frame.upright) return heard ? verdict(frame, note, heard) : '';
  const { px } = frame;
  const place = note.touch ?? note.stop;
  const mm = place ? place.mm + Math.max(note.tolerance ?? 0, note.touch ? frame.board.contact / 2 : 0) + 5 * px : 3;
  const { x, y } = frame.at(mm, frame.across(note.stringIndex, mm));
  const room = note.tolerance === undefined ? '' : ` ±${mmWords(note.tolerance)}`;
  const inside = tag('tspan', { 'font-weight': 700 }, escaped(printedPitch(note.sounding))) + escaped(room);
  const told = heard ? escaped(` ${VERDICTS[heard.verdict].mark} ${t(VERDICTS[heard.verdict].word)}`) : '';
  return haloed({ x, y: y - 4 * px, 'font-size': 11.5 * px }, 'ink', inside + told, px);
}

/** On an upright board there is room for the sign only. */
function verdict(frame: Frame, { touch, stop, stringIndex }: SceneNote, { verdict: known }: HeardMark): string {
  const { px } = frame;
  const mm = (touch ?? stop)?.mm ?? 3;
  const { x, y } = frame.at(mm, frame.across(stringIndex, mm));
  return haloed({ x: x + 9 * px, y: y + 4 * px, 'font-size': 12 * px, 'font-weight': 700 }, 'ink', VERDICTS[known].mark, px);
}

/** Lettering over strings: a rim of paper under it. Two texts, since not every reader of SVG can paint a stroke first. */
function haloed(attributes: Readonly<Record<string, string | number>>, role: 'ink' | 'warn', inside: string, px: number): string {
  const rim = {
    ...outlined('paper', 3.5 * px, 'pw-fill-paper'),
    fill: LIGHT.paper,
    'stroke-linejoin': 'round',
    'aria-hidden': 'true',
  };
  return tag('text', { ...attributes, ...rim }, inside) + tag('text', { ...attributes, ...filled(role) }, inside);
}

/** Across the board: that there is nothing to show. */
export function trouble(frame: Frame, event: SceneEvent): string {
  const { px } = frame;
  const { x, y } = frame.at(frame.upright ? 14 : 6, 0);
  const place = { x: frame.upright ? -frame.half : x, y: y + 5 * px, 'font-size': 14 * px, 'font-weight': 700 };
  return haloed(place, 'warn', escaped(sentence(t("{written} can't be played", { written: event.written }))), px);
}
