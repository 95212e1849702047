import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';

vi.mock('vscode', () => import('./fake-vscode'));

import { Preview } from '../../client/preview/preview';
import type { HostMessage, PanelMessage } from '../../client/webview/messages';
import type { Scene, SceneChange } from '../../server/protocol/scene';
import {
  configuration,
  configured,
  documents,
  EventEmitter,
  editing,
  type FakeEditor,
  l10n,
  selecting,
  Uri,
  window,
  workspace,
} from './fake-vscode';
import { scenePlaces } from './scene-places';

const URI = 'file:///harbour.passage';
const TEXT = 'passage: Buoy\nD5 E5 F#5';

/** A preview of `TEXT` in an open editor, its panel, and everything that was sent to it. */
function setUp() {
  const sent: HostMessage[] = [];
  /** Apart from the rest: it is no part of following the music. */
  const marked: HostMessage[] = [];
  const fromPanel = new EventEmitter<PanelMessage>();
  const changed = new EventEmitter<string>();
  const disposed = new EventEmitter<void>();
  const scene = { uri: URI, version: 1, ...scenePlaces(TEXT) };
  const document = { uri: Uri.parse(URI), version: 1 };
  documents.set(URI, document);
  const editor: FakeEditor = {
    document,
    selections: [{ active: { line: 1, character: 0 } }],
    get selection() {
      return this.selections[0]!;
    },
    viewColumn: 1,
  };
  window.visibleTextEditors = [editor];
  window.activeTextEditor = editor;
  const panel = {
    webview: {
      options: {},
      html: '',
      cspSource: 'https://panel.example',
      asWebviewUri: (uri: Uri) => uri,
      onDidReceiveMessage: fromPanel.event,
      postMessage: (message: HostMessage) => (message.type === 'marking' ? marked : sent).push(message),
    },
    viewColumn: 2,
    onDidDispose: disposed.event,
    reveal: vi.fn(),
  };
  const scenes = {
    onDidChange: changed.event,
    onDidFail: new EventEmitter<string>().event,
    newest: scene,
    get() {
      return this.newest;
    },
    /** What made the newest scene of another, as the server told it. */
    change: undefined as { readonly of: Scene; readonly change: SceneChange } | undefined,
    changeOf(of: Scene | undefined) {
      return this.change && this.change.of === of ? this.change.change : undefined;
    },
    watch: () => ({ dispose() {} }),
  };
  const output = { error: vi.fn() };
  const sendRequest = vi.fn();
  const preview = new Preview(
    panel as never,
    { extensionUri: Uri.parse('file:///extension') } as never,
    {
      client: { sendRequest },
      scenes,
      output,
    } as never,
  );
  preview.show(document.uri as never);
  const move = async (character: number) => {
    editor.selections = [{ active: { line: 1, character } }];
    selecting.fire({ textEditor: editor });
    await vi.advanceTimersByTimeAsync(200);
  };
  const say = async (message: PanelMessage) => {
    fromPanel.fire(message);
    await vi.advanceTimersByTimeAsync(200);
  };
  return { preview, panel, sent, marked, scene, scenes, document, editor, changed, disposed, output, sendRequest, move, say };
}

const reveal = (event: number, turn: number, version = 1): PanelMessage => ({
  type: 'reveal',
  uri: URI,
  version,
  at: { passage: 0, event },
  turn,
  focus: false,
});

beforeEach(() => {
  vi.useFakeTimers();
  vi.clearAllMocks();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('the preview', () => {
  it('says nothing before its page listens, then sends the scene and the cursor’s note', async () => {
    const { sent, say, move } = setUp();
    await move(3);
    expect(sent).toEqual([]);
    await say({ type: 'ready' });
    expect(sent).toMatchObject([{ type: 'scene', scene: { version: 1 }, at: { passage: 0, event: 1 } }]);
  });

  it('says which fingerings the staff prints, at first and when the setting changes', async () => {
    const { marked, say } = setUp();
    await say({ type: 'ready' });
    configuration.set('passagework.staff.fingerings', 'all');
    configured.fire({ affectsConfiguration: (name) => name === 'passagework.staff.fingerings' });
    configured.fire({ affectsConfiguration: (name) => name === 'editor.fontSize' });
    configuration.clear();
    expect(marked).toEqual([
      { type: 'marking', marking: 'changes' },
      { type: 'marking', marking: 'all' },
    ]);
  });

  it('tells a panel that has the scene before only what has changed, and all of it when asked', async () => {
    const { sent, say, scene, scenes, changed } = setUp();
    const next = (version: number) => {
      const of = scenes.newest;
      scenes.newest = { ...of, version };
      scenes.change = { of: of as never, change: { from: of.version, version, passages: [] } };
      changed.fire(URI);
    };
    await say({ type: 'ready' });
    next(2);
    expect(sent.at(-1)).toMatchObject({ type: 'change', uri: scene.uri, change: { from: 1, version: 2 } });
    await say({ type: 'whole' });
    expect(sent.at(-1)).toMatchObject({ type: 'scene', scene: { version: 2 } });
    next(3);
    expect(sent.at(-1)).toMatchObject({ type: 'change', change: { from: 2, version: 3 } });
    // Two scenes on, what made the last of the one between them says nothing.
    scenes.newest = { ...scenes.newest, version: 4 };
    next(5);
    expect(sent.at(-1)).toMatchObject({ type: 'scene', scene: { version: 5 } });
  });

  it('follows the cursor', async () => {
    const { sent, say, move } = setUp();
    await say({ type: 'ready' });
    await move(7);
    expect(sent.at(-1)).toEqual({ type: 'cursor', version: 1, at: { passage: 0, event: 2 }, turn: 0 });
  });

  it('holds still while several cursors are out, and while the text is ahead of the scene', async () => {
    const { sent, say, editor, document, move } = setUp();
    await say({ type: 'ready' });
    editor.selections = [{ active: { line: 1, character: 0 } }, { active: { line: 1, character: 4 } }];
    selecting.fire({ textEditor: editor });
    await vi.advanceTimersByTimeAsync(200);
    document.version = 2;
    await move(7);
    expect(sent.filter(({ type }) => type === 'cursor')).toEqual([]);
  });

  it('selects a note that was chosen in the panel, without taking the keyboard', async () => {
    const { say } = setUp();
    await say({ type: 'ready' });
    await say(reveal(2, 1));
    expect(window.showTextDocument).toHaveBeenCalledOnce();
    const [, options] = window.showTextDocument.mock.calls[0]!;
    expect(options).toMatchObject({
      viewColumn: 1,
      preserveFocus: true,
      selection: { anchor: { line: 1, character: 6 }, active: { line: 1, character: 9 } },
    });
  });

  it('answers a cursor that it moved itself with the turn that moved it', async () => {
    const { sent, say, move } = setUp();
    await say({ type: 'ready' });
    await say(reveal(2, 5));
    await move(9);
    expect(sent.at(-1)).toMatchObject({ type: 'cursor', at: { event: 2 }, turn: 5 });
  });

  it('drops what was chosen in an older drawing', async () => {
    const { say, document, scene } = setUp();
    await say({ type: 'ready' });
    await say(reveal(2, 1, 0));
    document.version = 2;
    await say(reveal(2, 2, 1));
    await say({ ...reveal(2, 3), uri: 'file:///other.passage' } as PanelMessage);
    await say(reveal(77, 4, scene.version));
    expect(window.showTextDocument).not.toHaveBeenCalled();
  });

  it('counts turns anew for a page that was loaded anew', async () => {
    const { sent, say, move } = setUp();
    await say({ type: 'ready' });
    await say(reveal(0, 9));
    await say({ type: 'ready' });
    await move(4);
    expect(sent.at(-1)).toMatchObject({ type: 'cursor', turn: 0 });
  });

  it('says that it is behind when a scene is late, and only then', async () => {
    const { sent, say, document, scene } = setUp();
    await say({ type: 'ready' });
    editing.fire({ document });
    await vi.advanceTimersByTimeAsync(2000);
    expect(sent).toHaveLength(1);
    document.version = scene.version + 1;
    editing.fire({ document });
    await vi.advanceTimersByTimeAsync(300);
    expect(sent).toHaveLength(1);
    await vi.advanceTimersByTimeAsync(300);
    expect(sent.at(-1)).toMatchObject({ type: 'working' });
  });

  it('sends a new scene when there is one, of its own document only', async () => {
    const { sent, say, changed } = setUp();
    await say({ type: 'ready' });
    changed.fire('file:///other.passage');
    expect(sent).toHaveLength(1);
    changed.fire(URI);
    expect(sent).toHaveLength(2);
  });

  it('writes a chosen fingering into the text as one edit', async () => {
    const { say, sendRequest } = setUp();
    await say({ type: 'ready' });
    const after = { line: 1, character: 5 };
    sendRequest.mockResolvedValue({ edits: [{ start: after, end: after, text: ' [II]' }] });
    await say({ type: 'pin', uri: URI, version: 1, at: { passage: 0, event: 1 }, alternative: 2 });
    expect(sendRequest).toHaveBeenCalledWith('passagework/pin', { uri: URI, version: 1, passage: 0, event: 1, alternative: 2 });
    expect(workspace.applyEdit).toHaveBeenCalledOnce();
    expect(workspace.applyEdit.mock.calls[0]?.[0].replaced).toMatchObject([
      { range: { start: after, end: after }, text: ' [II]' },
    ]);
  });

  it('writes nothing where the text has changed since, and says so', async () => {
    const { say, sendRequest, document } = setUp();
    await say({ type: 'ready' });
    const pin: PanelMessage = { type: 'pin', uri: URI, version: 1, at: { passage: 0, event: 1 }, alternative: 2 };
    sendRequest.mockResolvedValueOnce(null);
    await say(pin);
    document.version = 2;
    sendRequest.mockResolvedValueOnce({
      edits: [{ start: { line: 0, character: 0 }, end: { line: 0, character: 1 }, text: 'x' }],
    });
    await say(pin);
    expect(workspace.applyEdit).not.toHaveBeenCalled();
    expect(window.setStatusBarMessage).toHaveBeenCalledTimes(2);
  });

  it('hands its page what VS Code has of our words in the reader’s language', () => {
    expect(setUp().panel.webview.html).not.toContain('id="words"');
    l10n.bundle = { Play: 'Ĝudu' };
    try {
      expect(setUp().panel.webview.html).toContain('<script type="application/json" id="words">{"Play":"Ĝudu"}</script>');
    } finally {
      l10n.bundle = undefined;
    }
  });

  it('is silent once it is closed', async () => {
    const { sent, say, changed, disposed, move } = setUp();
    await say({ type: 'ready' });
    disposed.fire();
    changed.fire(URI);
    await move(5);
    await say({ type: 'ready' });
    expect(sent).toHaveLength(1);
  });
});
