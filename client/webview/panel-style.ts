import { LOOK_CSS } from '../../server/scene/look';

/** The panel's style sheet. It is handed to the page as an object: the policy lets no inline style through. */
export const PANEL_CSS = `${LOOK_CSS}
*{box-sizing:border-box}
body{margin:0;padding:0;background:var(--pw-paper);color:var(--pw-ink);font-family:var(--vscode-font-family,system-ui,sans-serif);font-size:var(--vscode-font-size,13px);line-height:1.5}
.panel{max-width:1500px;margin:0 auto;padding:12px clamp(10px,2.5vw,24px) 32px}
h1,h2{font-weight:600;margin:0} h1{font-size:1.35em} h2{font-size:1em}
.head{display:flex;flex-wrap:wrap;align-items:baseline;gap:2px 18px;margin:0 0 8px}
.hardest{padding:0 8px;min-height:24px}
.facts,.quiet{color:var(--pw-faint)}
select,button{font:inherit;color:inherit;background:var(--pw-wood);border:1px solid var(--pw-line);border-radius:5px;min-height:28px;padding:2px 10px}
select{max-width:100%}
button{cursor:pointer} button:hover{border-color:var(--pw-ink)} button:disabled{cursor:default;opacity:.45;border-color:var(--pw-line)}
:focus-visible{outline:2px solid var(--vscode-focusBorder,var(--pw-touch));outline-offset:2px}
.transport{display:flex;flex-wrap:wrap;align-items:center;gap:6px;margin:0 0 10px}
.transport .play{min-width:64px;font-weight:600}
.transport .play.on,.switch[aria-pressed=true]{border-color:var(--pw-touch);box-shadow:inset 0 0 0 1px var(--pw-touch)}
.switch[aria-pressed=true]::before{content:"✓ "}
.speed{display:inline-flex;align-items:center;gap:6px;padding:0 6px} .speed input{width:96px;accent-color:var(--pw-touch)} .speed output{min-width:3.2em}
.staff{overflow:auto;max-height:40vh;border-radius:6px;min-width:0}
.small{font-size:.8em}.large{font-size:1.2em}.bar{font:inherit;color:inherit;background:var(--pw-wood);border:1px solid var(--pw-line);border-radius:5px;min-height:28px;width:5em;padding:2px 6px}
.path{position:relative;cursor:pointer;overflow:hidden} .path svg{display:block}
.here{position:absolute;width:2px;background:var(--pw-touch);pointer-events:none}
.board{overflow-x:auto;border-radius:6px;position:sticky;bottom:0;background:var(--pw-paper);z-index:1}
.staff svg,.board svg{display:block}
.staff [data-event]{cursor:pointer}
.pw-on{--pw-ink:var(--pw-touch)}
.pw-on>.pw-hit{fill:var(--pw-touch);fill-opacity:.14}
.pw-range>.pw-hit{fill:var(--pw-open);fill-opacity:.14;stroke:var(--pw-open);stroke-dasharray:3 3}
.pw-playing>.pw-hit{fill:var(--pw-stop);fill-opacity:.2}
.pw-event:hover>.pw-hit{stroke:var(--pw-touch)}
.body{display:grid;grid-template-columns:minmax(0,1fr);gap:10px 12px;margin-top:6px}
.body.narrow{grid-template-columns:auto minmax(0,1fr);align-items:start}
.narrow .board{grid-column:1;grid-row:1/3;top:6px;bottom:auto;align-self:start} .narrow .staff{grid-column:2;max-height:52vh} .narrow .words{grid-column:2}
@media (max-height:640px){.body:not(.narrow) .board{position:static} .body:not(.narrow) .staff{max-height:56vh}}
@media (max-width:500px){.narrow .staff{grid-column:1/3;max-height:26vh} .narrow .board{grid-row:2;grid-column:1/3;position:sticky;top:auto;bottom:0} .narrow .words{grid-column:1/3} .transport{gap:4px} .speed input{width:60px} button,select,.bar{min-height:24px}}
.words{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(300px,100%),1fr));gap:6px 28px;align-content:start}
.account{margin:0;max-width:70ch}
.caution{border-left:4px solid var(--pw-warn);margin:8px 0;padding:4px 12px;max-width:80ch}
.ways{list-style:none;margin:4px 0 8px;padding:0;display:grid;gap:4px}
.chosen{margin:2px 0}
.choice{display:grid;grid-template-columns:minmax(0,1fr) auto auto;align-items:center;gap:2px 10px;width:100%;text-align:left}
.narrow .dear{display:none} .narrow .choice{grid-template-columns:minmax(0,1fr) auto}
.cost{font-variant-numeric:tabular-nums;min-width:3em;text-align:right;display:inline-block}
.dear svg{display:block}
.terms{margin:4px 0;padding:0;list-style:none}
.heard{margin:14px 0;border-top:1px solid var(--pw-line);padding-top:8px}
.told{margin:4px 0;padding-left:18px;max-width:80ch} .curve{overflow-x:auto;border-radius:6px} .curve svg{display:block} .curve [data-event]{cursor:pointer}
.notes{list-style:none;padding:0;margin:4px 0;display:grid;gap:2px} .notes button{width:100%;text-align:left}
.pw-heard text{paint-order:stroke;stroke:var(--pw-paper);stroke-width:3px}
.counting{display:flex;flex-wrap:wrap;gap:6px}
.legend{display:flex;flex-wrap:wrap;gap:2px 18px;margin:12px 0;padding:0;list-style:none;color:var(--pw-faint)}
.legend li{display:flex;align-items:center;gap:6px}
summary{cursor:pointer;padding:3px 0}
.unseen{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
details{margin:4px 0}
dl.keys{display:grid;grid-template-columns:max-content 1fr;gap:2px 16px;margin:6px 0} dl.keys dd{margin:0}
kbd{font:inherit;font-weight:600}
.message{max-width:60ch;margin:10vh auto;text-align:center}
.wrong{margin:4px 0} .wrong:not(:empty){border-left:4px solid var(--pw-warn);padding-left:8px}
.working{color:var(--pw-faint);margin:0}
progress{accent-color:var(--pw-touch);vertical-align:middle}
`;
