import { PANEL_CSS } from '../panel-style';
import { speakAsThePage } from '../words';
import { type Kept, MeasureView } from './measure-view';
import type { MeasureHostMessage, MeasurePageMessage } from './messages';

/** What VS Code puts into a webview. */
declare function acquireVsCodeApi(): {
  postMessage(message: MeasurePageMessage): void;
  getState(): Kept | undefined;
  setState(state: Kept): void;
};

const MEASURE_CSS = `
.measure{max-width:46em}
fieldset{border:1px solid var(--pw-line);border-radius:6px;margin:10px 0;padding:6px 14px 12px}
legend{font-weight:600;padding:0 6px}
label{display:block;margin:6px 0 2px}
input{font:inherit;color:inherit;background:var(--pw-wood);border:1px solid var(--pw-line);border-radius:5px;min-height:28px;padding:2px 8px;width:8em}
caption{text-align:left;color:var(--pw-faint)} th,td{text-align:left;font-weight:400;padding:1px 14px 1px 0}
.news{min-height:1.5em;font-weight:600}
h2:focus{outline:none}
`;

speakAsThePage();
const vscode = acquireVsCodeApi();
const sheet = new CSSStyleSheet();
sheet.replaceSync(PANEL_CSS + MEASURE_CSS);
document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];

window.addEventListener('error', ({ message }) => vscode.postMessage({ type: 'broke', message }));

const view = new MeasureView(
  document.body,
  { send: (message) => vscode.postMessage(message), keep: (state) => vscode.setState(state) },
  vscode.getState() ?? {},
);
window.addEventListener('message', ({ data }: MessageEvent<MeasureHostMessage>) => view.receive(data));
vscode.postMessage({ type: 'ready' });
