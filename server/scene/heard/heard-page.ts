import { later, t } from '../../l10n/translate';
import type { Heard, HeardMark, HeardRun } from '../../protocol/heard';
import type { ScenePassage } from '../../protocol/scene';
import { PAGE_CSS } from '../page/page-style';
import { pageShell } from '../page/shell';
import { escaped } from '../svg';
import { mannerLabel, PAIN, printedPitch } from '../words';
import { drawPitchCurve } from './pitch-curve';
import { VERDICTS } from './verdicts';

/** Width of the curves on the page, px; long takes are wider and scroll. */
const WIDTH = 1080;

/**
 * One self-contained HTML page of a recording: summary, the pitch curve of every take, every note in words. It loads nothing and works
 * from a file; without scripts only a press on the curve does nothing.
 *
 * @param recording its name
 */
export function renderHeardPage({ summary, runs }: Heard, passage: ScenePassage, recording: string): string {
  const title = `${passage.title || t('Passage')} · ${recording}`;
  const body = `<header><h1>${escaped(title)}</h1></header>
<main>
<ul>${summary.map((sentence) => `<li>${escaped(sentence)}</li>`).join('')}</ul>
<ul class="legend" aria-label="${escaped(t('Verdicts'))}">${Object.values(VERDICTS)
    .map(({ mark, word }) => `<li>${mark} ${escaped(t(word))}</li>`)
    .join('')}</ul>
${runs.map((run) => section(run, passage)).join('\n')}
</main>
<footer>${escaped(t('Made with Passagework. Curves are cents from the written pitch, at the tuning of the recording. {pain}', { pain: t(PAIN) }))}</footer>`;
  return pageShell({ title, style: `${PAGE_CSS}${CURVE_CSS}`, body, script: PRESS });
}

const HEADS = [later('Bar'), later('Beat'), later('Note'), later('Played'), later('Line of the text'), later('Heard')];

function section(run: HeardRun, passage: ScenePassage): string {
  const from = run.from.toFixed(1);
  const name = run.whole ? t('Take from {from} s', { from }) : t('Part from {from} s', { from });
  return `<section>
<h2>${escaped(name)}</h2>
<figure class="curve"><div class="scroll" tabindex="0" role="region" aria-label="${escaped(t('Pitch curve, {name}', { name }))}">${drawPitchCurve(run, passage, WIDTH).svg}</div></figure>
<div class="scroll" tabindex="0" role="region" aria-label="${escaped(t('Notes, {name}', { name }))}"><table>
<thead><tr>${HEADS.map((head) => `<th scope="col">${escaped(t(head))}</th>`).join('')}</tr></thead>
<tbody>
${run.marks.map((mark) => row(mark, passage)).join('\n')}
</tbody>
</table></div>
</section>`;
}

function row({ event, note, verdict, words }: HeardMark, { events }: ScenePassage): string {
  const at = events[event];
  const scene = at?.notes[note];
  const cells = [
    at?.bar ?? '',
    at?.beat ?? '',
    printedPitch(scene?.sounding ?? ''),
    scene ? mannerLabel(scene) : '',
    (at?.range.start.line ?? 0) + 1,
    `${VERDICTS[verdict].mark} ${words}`,
  ];
  return `<tr data-event="${event}" tabindex="-1">${cells.map((cell) => `<td>${escaped(String(cell))}</td>`).join('')}</tr>`;
}

const CURVE_CSS = '.curve [data-event]{cursor:pointer} .curve svg{display:block;max-width:none}';

/** A press on the curve goes to the note's line in the table. Plain enough to be read in the page's source. */
const PRESS = `
for (const section of document.querySelectorAll('section')) {
  section.querySelector('.curve').addEventListener('click', (click) => {
    const note = click.target.closest('[data-event]');
    if (!note) return;
    for (const row of section.querySelectorAll('tr[aria-current]')) row.removeAttribute('aria-current');
    const row = section.querySelector('tr[data-event="' + note.dataset.event + '"]');
    row.setAttribute('aria-current', 'true');
    row.focus();
  });
}
`;
