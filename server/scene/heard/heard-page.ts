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
  const title = `${passage.title || 'Passage'} · ${recording}`;
  const body = `<header><h1>${escaped(title)}</h1></header>
<main>
<ul>${summary.map((sentence) => `<li>${escaped(sentence)}</li>`).join('')}</ul>
<ul class="legend" aria-label="Verdicts">${Object.values(VERDICTS)
    .map(({ mark, word }) => `<li>${mark} ${word}</li>`)
    .join('')}</ul>
${runs.map((run) => section(run, passage)).join('\n')}
</main>
<footer>Made with Passagework. Curves are cents from the written pitch, at the tuning of the recording. ${PAIN}</footer>`;
  return pageShell({ title, style: `${PAGE_CSS}${CURVE_CSS}`, body, script: PRESS });
}

function section(run: HeardRun, passage: ScenePassage): string {
  const name = `${run.whole ? 'Take' : 'Part'} from ${run.from.toFixed(1)} s`;
  return `<section>
<h2>${name}</h2>
<figure class="curve"><div class="scroll" tabindex="0" role="region" aria-label="Pitch curve, ${name}">${drawPitchCurve(run, passage, WIDTH).svg}</div></figure>
<div class="scroll" tabindex="0" role="region" aria-label="Notes, ${name}"><table>
<thead><tr><th scope="col">Bar</th><th scope="col">Beat</th><th scope="col">Note</th><th scope="col">Played</th><th scope="col">Line of the text</th><th scope="col">Heard</th></tr></thead>
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
