import { heldScene } from './held-scene';
import type { Remembered } from './host';
import type { HostMessage, PanelMessage } from './messages';
import { Panel } from './panel';
import { PANEL_CSS } from './panel-style';
import { speakAsThePage } from './words';

/** What VS Code puts into a webview. */
declare function acquireVsCodeApi(): {
  postMessage(message: PanelMessage): void;
  getState(): Remembered | undefined;
  setState(state: Remembered): void;
};

speakAsThePage();
const vscode = acquireVsCodeApi();
const sheet = new CSSStyleSheet();
sheet.replaceSync(PANEL_CSS);
document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];

window.addEventListener('error', ({ message }) => vscode.postMessage({ type: 'broke', message }));
window.addEventListener('unhandledrejection', ({ reason }) => vscode.postMessage({ type: 'broke', message: String(reason) }));

const panel = new Panel(
  document.body,
  { send: (message) => vscode.postMessage(message), remember: (state) => vscode.setState(state) },
  vscode.getState() ?? {},
);
const whole = heldScene(() => vscode.postMessage({ type: 'whole' }));
window.addEventListener('message', ({ data }: MessageEvent<HostMessage>) => {
  const message = whole(data);
  if (message) panel.receive(message);
});
vscode.postMessage({ type: 'ready' });
