import { t } from '../../l10n/translate';
import type { Scene, ScenePassage } from '../../protocol/scene';
import { drawBoardLayers, scaleToFit } from '../board/board';
import { reachOfPassage } from '../board/frame';
import { legend } from '../board/legend';
import { LIGHT } from '../look';
import { drawStaff } from '../staff/staff';
import { escaped } from '../svg';
import { often, PAIN } from '../words';
import { PAGE_CSS } from './page-style';
import { pageShell } from './shell';
import { eventTable } from './table';

/** Width of the drawings on the page, px. */
const WIDTH = 1080;

/**
 * One self-contained HTML page of a scene: fingerboard, staff, every note in figures, caution. It loads
 * nothing, works from a file, prints, and is the same text for the same scene. Without scripts it still
 * shows everything but the stepping.
 */
export function renderPage(scene: Scene): string {
  const several = scene.passages.length > 1;
  const title = several
    ? t('{passages} passages', { passages: scene.passages.length })
    : scene.passages[0]?.title || t('Passage');
  const body = `<header><h1>${escaped(title)}</h1>${WAVE}</header>
<main>
${scene.passages.map((passage) => section(passage, several)).join('\n')}
</main>
<footer>${escaped(t('Made with Passagework. Lengths are millimetres along the string; chances come from a model of hand and string and are no promise.'))}
${escaped(t(PAIN))}</footer>`;
  return pageShell({ title: t('{title} · how to play it', { title }), style: PAGE_CSS, body, script: STEPPER });
}

function section(passage: ScenePassage, named: boolean): string {
  const scale = scaleToFit(reachOfPassage(passage), WIDTH, false);
  const tempo = passage.events[0]?.tempo;
  const facts = [
    [t('instrument'), passage.board.name],
    [t('string length'), `${passage.board.length} mm`],
    [t('hand'), passage.hand],
    ...(tempo ? [[t('tempo'), `${tempo.beat} = ${tempo.bpm}`]] : []),
    [t('clean'), often(passage.clean)],
  ].map(([name, value]) => `<li><span>${escaped(String(name))}</span> <b>${escaped(String(value))}</b></li>`);
  const marks = legend(passage.board).map(({ svg, words }) => `<li>${svg}${escaped(words)}</li>`);
  const first = passage.events[0];
  const of = named ? passage.title || t('the passage') : undefined;
  const labels = of
    ? [
        t('Staff of {passage}', { passage: of }),
        t('Fingerboard of {passage}', { passage: of }),
        t('Table of notes of {passage}', { passage: of }),
      ]
    : [t('Staff'), t('Fingerboard'), t('Table of notes')];
  const [staff, board, table] = labels.map(escaped);
  return `<section>
${named ? `<h2>${escaped(passage.title || t('Passage'))}</h2>` : ''}
<ul class="facts">${facts.join('')}</ul>
${passage.caution === undefined ? '' : `<p class="caution">${escaped(passage.caution)}</p>`}
<figure class="staff"><div class="scroll" tabindex="0" role="region" aria-label="${staff}">${drawStaff(passage, { width: WIDTH }).svg}</div></figure>
<div class="steps"><button type="button" data-step="-1">${escaped(t('Previous note'))}</button><button type="button" data-step="1">${escaped(t('Next note'))}</button>
<span class="hint">${escaped(t('or the arrow keys, or a click on a note'))}</span></div>
<figure class="board"><div class="scroll" tabindex="0" role="region" aria-label="${board}">${drawBoardLayers(passage, { scale }).svg}</div></figure>
<p class="account" aria-live="polite">${escaped(first?.account ?? t('Nothing to play yet.'))}</p>
<ul class="legend">${marks.join('')}</ul>
<div class="scroll" tabindex="0" role="region" aria-label="${table}">${eventTable(passage)}</div>
</section>`;
}

/** A string sounding in five parts. */
const WAVE = `<svg viewBox="0 0 1000 22" preserveAspectRatio="none" aria-hidden="true"><path d="${Array.from(
  { length: 5 },
  (_, i) =>
    `M${i * 200} 11C${i * 200 + 67} -3 ${i * 200 + 133} -3 ${i * 200 + 200} 11M${i * 200} 11C${i * 200 + 67} 25 ${i * 200 + 133} 25 ${i * 200 + 200} 11`,
).join(
  '',
)}" class="pw-line-touch" fill="none" stroke="${LIGHT.touch}" stroke-width="1.5" vector-effect="non-scaling-stroke"/></svg>`;

/** Steps through the notes of each passage. Plain enough to be read in the page's source. */
const STEPPER = `
for (const section of document.querySelectorAll('section')) {
  const rows = [...section.querySelectorAll('tr[data-event]')];
  let at = 0;
  const show = (index) => {
    at = Math.max(0, Math.min(rows.length - 1, index));
    for (const layer of section.querySelectorAll('.pw-layer')) layer.setAttribute('visibility', Number(layer.dataset.event) === at ? 'visible' : 'hidden');
    for (const note of section.querySelectorAll('.staff [data-event]')) note.classList.toggle('pw-on', Number(note.dataset.event) === at);
    for (const row of rows) if (Number(row.dataset.event) === at) row.setAttribute('aria-current', 'true'); else row.removeAttribute('aria-current');
    section.querySelector('.account').textContent = rows[at].dataset.account;
  };
  section.addEventListener('click', (click) => {
    const step = click.target.closest('[data-step]');
    const note = click.target.closest('tr[data-event], .staff [data-event]');
    if (step) show(at + Number(step.dataset.step));
    else if (note) show(Number(note.dataset.event));
  });
  section.addEventListener('keydown', (key) => {
    const by = { ArrowRight: 1, ArrowLeft: -1 }[key.key];
    if (by) { key.preventDefault(); show(at + by); }
  });
  if (rows.length) show(0);
}
if (document.querySelectorAll('section').length === 1) {
  const only = document.querySelector('section');
  document.addEventListener('keydown', (key) => { if (key.target === document.body) only.dispatchEvent(new KeyboardEvent('keydown', { key: key.key })); });
}
`;
