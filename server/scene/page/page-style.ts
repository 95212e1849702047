import { LOOK_CSS } from '../look';

/** The page's own style sheet; colours come from the look that all views share. */
export const PAGE_CSS = `${LOOK_CSS}
*{box-sizing:border-box}
html{background:var(--pw-paper);color:var(--pw-ink);font:16px/1.5 system-ui,"Segoe UI",Helvetica,Arial,sans-serif}
body{margin:0 auto;max-width:1180px;padding:clamp(16px,4vw,48px)}
h1,h2{font-family:"Iowan Old Style","Palatino Linotype",Palatino,Georgia,serif;font-weight:600;line-height:1.2;margin:0}
h1{font-size:clamp(1.7rem,4vw,2.5rem)} h2{font-size:1.5rem}
header svg{display:block;width:100%;height:22px;margin:10px 0 26px}
section{margin:0 0 56px}
.facts{display:flex;flex-wrap:wrap;gap:4px 28px;margin:8px 0 20px;padding:0;list-style:none}
.facts b{font-weight:600}
.facts span,caption,.hint,footer{color:var(--pw-faint)}
.scroll{overflow-x:auto;max-width:100%}
.scroll:focus-visible,button:focus-visible{outline:2px solid var(--pw-touch);outline-offset:2px}
figure{margin:0 0 20px}
.staff svg,.board svg{display:block;max-width:none}
.staff [data-event]{cursor:pointer}
.steps{display:flex;flex-wrap:wrap;align-items:center;gap:8px 10px;margin:6px 0}
button{font:inherit;color:inherit;background:var(--pw-wood);border:1px solid var(--pw-line);border-radius:6px;padding:4px 12px;min-height:34px;cursor:pointer}
button:hover{border-color:var(--pw-ink)}
.account{margin:6px 0 14px;max-width:75ch;min-height:3em}
.legend{display:flex;flex-wrap:wrap;gap:6px 22px;margin:0 0 22px;padding:0;list-style:none;font-size:.875rem;color:var(--pw-faint)}
.legend li{display:flex;align-items:center;gap:6px}
table{border-collapse:collapse;width:100%;font-size:.9375rem;font-variant-numeric:tabular-nums}
caption{text-align:left;padding:0 0 6px}
th,td{text-align:left;padding:5px 14px 5px 0;border-bottom:1px solid color-mix(in srgb,var(--pw-line) 45%,transparent);vertical-align:baseline;white-space:nowrap}
thead th{font-weight:600;color:var(--pw-faint);border-bottom-color:var(--pw-line)}
td.n{text-align:right} th.n{text-align:right}
td.wide{white-space:normal;min-width:16em}
tbody button{padding:0 8px;min-height:26px;min-width:34px}
tr[aria-current]{background:var(--pw-wood)}
tr[aria-current] button{border-color:var(--pw-touch);box-shadow:inset 0 0 0 1px var(--pw-touch)}
.caution{border-left:4px solid var(--pw-warn);padding:8px 14px;margin:0 0 20px;max-width:80ch}
.bad{color:var(--pw-warn);font-weight:600}
.pw-on{--pw-ink:var(--pw-touch)} .pw-on>.pw-hit{fill:var(--pw-touch);fill-opacity:.13} .staff [data-event]:hover>.pw-hit{fill:var(--pw-touch);fill-opacity:.08}
footer{font-size:.875rem;border-top:1px solid var(--pw-line);padding-top:12px}
@media print{.steps,.hint{display:none}body{padding:0;max-width:none}section{break-inside:auto}tr,figure{break-inside:avoid}}
`;
