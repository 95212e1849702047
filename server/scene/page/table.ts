import { later, t } from '../../l10n/translate';
import type { SceneEvent, SceneNote, ScenePassage } from '../../protocol/scene';
import { escaped } from '../svg';
import { centsWords, intervalWords, often, printedPitch } from '../words';

const HEADS: readonly (readonly [text: string, numeric: boolean])[] = [
  [later('note'), false],
  [later('bar'), true],
  [later('beat'), true],
  [later('asked'), false],
  [later('sounds'), false],
  [later('string'), false],
  [later('how'), false],
  [later('fingers'), false],
  [later('mm from the nut'), true],
  [later('room, mm'), true],
  [later('clean'), false],
];

/** Every event of a passage in figures: the drawing in words, and what a printed page keeps. */
export function eventTable(passage: ScenePassage): string {
  const head = HEADS.map(([text, numeric]) => `<th scope="col"${numeric ? ' class="n"' : ''}>${escaped(t(text))}</th>`).join('');
  return `<table><caption>${escaped(t('Every note, and how it is played'))}</caption><thead><tr>${head}</tr></thead><tbody>${passage.events.map(row).join('')}</tbody></table>`;
}

function row(event: SceneEvent): string {
  const { notes } = event;
  // A double stop's two notes stand one over the other, as on the staff.
  const cell = (text: string | readonly string[], kind = ''): string =>
    `<td${kind && ` class="${kind}"`}>${[text].flat().map(escaped).join('<br>')}</td>`;
  const each = (of: (note: SceneNote) => string): readonly string[] => notes.map(of);
  const button = `<td><button type="button" aria-label="${escaped(t('Show note {number} on the board', { number: event.index + 1 }))}">${event.index + 1}</button></td>`;
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
  if (kind === 'natural') return t('natural {fraction}, partial {partial}', { fraction: touch?.fraction ?? '', partial });
  if (kind === 'artificial') return t('{interval} harmonic', { interval: intervalWords(interval) });
  return kind === 'open' ? t('open') : t('stopped');
}
