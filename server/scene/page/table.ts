import type { SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { escaped } from '../svg';
import { centsWords, intervalWords, often, printedPitch } from '../words';

const HEADS: readonly (readonly [text: string, numeric: boolean])[] = [
  ['note', false],
  ['bar', true],
  ['beat', true],
  ['asked', false],
  ['sounds', false],
  ['string', false],
  ['how', false],
  ['fingers', false],
  ['mm from the nut', true],
  ['room, mm', true],
  ['clean', false],
];

/** Every event of a passage in figures: the drawing in words, and what a printed page keeps. */
export function eventTable(passage: ScenePassage): string {
  const head = HEADS.map(([text, numeric]) => `<th scope="col"${numeric ? ' class="n"' : ''}>${text}</th>`).join('');
  return `<table><caption>Every note, and how it is played</caption><thead><tr>${head}</tr></thead><tbody>${passage.events.map(row).join('')}</tbody></table>`;
}

function row(event: SceneEvent): string {
  const { notes } = event;
  // A double stop's two notes stand one over the other, as on the staff.
  const cell = (text: string | readonly string[], kind = ''): string =>
    `<td${kind && ` class="${kind}"`}>${[text].flat().map(escaped).join('<br>')}</td>`;
  const each = (of: (note: SceneNote) => string): readonly string[] => notes.map(of);
  const button = `<td><button type="button" aria-label="Show note ${event.index + 1} on the board">${event.index + 1}</button></td>`;
  const start = button + cell(String(event.bar), 'n') + cell(event.beat, 'n') + cell(event.written.split('+').map(asked));
  const rest =
    event.problem !== undefined
      ? `<td colspan="7" class="wide bad">${escaped(event.problem)}</td>`
      : cell(each(({ sounding, cents }) => [printedPitch(sounding), centsWords(cents)].filter(Boolean).join(' '))) +
        cell(each(({ string }) => string)) +
        cell(each(how)) +
        cell(each(({ stop, touch }) => [stop?.finger, touch?.finger].filter(Boolean).join('-') || '0')) +
        cell(
          each(({ stop, touch }) => [stop, touch].flatMap((finger) => (finger ? [finger.mm.toFixed(1)] : [])).join(' / ') || '–'),
          'n',
        ) +
        cell(
          each(({ tolerance }) => (tolerance === undefined ? '–' : `±${tolerance.toFixed(1)}`)),
          'n',
        ) +
        cell(event.chance === undefined ? '–' : often(event.chance));
  return `<tr data-event="${event.index}" data-account="${escaped(event.account)}">${start}${rest}</tr>`;
}

/** `E5<>A5` with its signs printed; the language's own marks stay. */
function asked(written: string): string {
  return written.split('<>').map(printedPitch).join('<>');
}

function how({ kind, touch, interval, partial }: SceneNote): string {
  if (kind === 'natural') return `natural ${touch?.fraction}, partial ${partial}`;
  if (kind === 'artificial') return `${intervalWords(interval)} harmonic`;
  return kind;
}
