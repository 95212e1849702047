import { t } from '../../l10n/translate';
import { LIGHT } from '../../scene/look';
import { escaped } from '../../scene/svg';
import { COLUMNS, type Diagram } from './diagrams';
import { MARGIN } from './paper';
import type { Sheet, SheetPart } from './sheet';

/** The sheet as one web page that loads nothing and runs nothing; printed, it fits its paper. Equal sheets give equal text. */
export function sheetHtml(sheet: Sheet): string {
  const { title, remarks, parts, footer, paper } = sheet;
  return `<!doctype html>
<html lang="${escaped(t('en'))}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width,initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${escaped(title)}</title>
<style>${css(sheet)}</style>
</head>
<body class="${paper.name}">
<header><h1>${escaped(title)}</h1>${remarks.map((r) => `<p>${escaped(r)}</p>`).join('')}</header>
<main>
${parts.map(section).join('\n')}
</main>
<footer>${escaped(footer)}</footer>
</body>
</html>
`;
}

function section({ heading, facts, problems, systems, diagrams, caution }: SheetPart): string {
  const [first = '', ...others] = systems.map(({ svg }) => `<div class="system">${svg}</div>`);
  // The heading stays with the first line of its music.
  return `<section>
<div class="opening">${heading ? `<h2>${escaped(heading)}</h2>` : ''}<p class="facts">${escaped(facts)}</p>
${caution ? `<p class="caution">${escaped(caution)}</p>` : ''}${first}</div>
${others.join('\n')}
${problems.length > 0 ? `<ul class="problems">${problems.map((p) => `<li>${escaped(p)}</li>`).join('')}</ul>` : ''}
${diagrams.map((row) => `<div class="diagrams">${row.map(figure).join('')}</div>`).join('\n')}
</section>`;
}

function figure({ drawing, place, words }: Diagram): string {
  return `<figure>${drawing.svg}<figcaption><b>${escaped(place)}</b> ${escaped(words)}</figcaption></figure>`;
}

function css({ paper }: Sheet): string {
  return `
@page{size:${paper.name === 'A4' ? 'A4' : 'letter'};margin:${MARGIN}pt}
body{margin:0 auto;padding:${MARGIN}pt;max-width:${paper.width - 2 * MARGIN}pt;background:${LIGHT.paper};color:${LIGHT.ink};font:10pt/1.4 system-ui,"Segoe UI",Helvetica,Arial,sans-serif}
h1{font-size:18pt;margin:0 0 4pt}h2{font-size:13pt;margin:0}
p{margin:2pt 0}.facts,footer,figcaption{color:${LIGHT.faint};font-size:8.5pt}
section{margin-top:16pt}.system{break-inside:avoid;margin-top:10pt}.system svg{display:block;width:100%;height:auto}figure svg{display:block;max-width:100%;height:auto}
.opening,.problems,.diagrams{break-inside:avoid}.problems,.diagrams{break-before:avoid}.problems{color:${LIGHT.stop};padding-left:14pt}
.diagrams{display:grid;grid-template-columns:repeat(${COLUMNS},1fr);gap:12pt;margin-top:10pt}figure{margin:0}figcaption b{display:block;color:${LIGHT.ink}}
.caution{margin-top:8pt;padding-left:8pt;border-left:3pt solid ${LIGHT.warn}}
footer{margin-top:16pt}
@media print{body{padding:0;max-width:none}}
`;
}
