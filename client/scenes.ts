import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { SCENE_REQUEST, type SceneParams, type SceneReply } from '../server/protocol/messages';
import type { Scene, SceneChange } from '../server/protocol/scene';
import { withChange } from '../server/scene/change';
import { Throttle } from './throttle';

/** Time between two scenes of one document, ms: a fast typist sees every pause, not every key. */
const REST = 120;

interface Watched {
  viewers: number;
  scene?: Scene;
  /** Which scene it is, as the server calls it. */
  stamp?: string | undefined;
  /** What made it of the one before, where that was told. */
  change?: { readonly of: Scene; readonly change: SceneChange } | undefined;
  /** Highest version seen since the document was opened: a document opened anew counts from the start. */
  version: number;
  readonly throttle: Throttle;
}

/**
 * The newest scene of every document that something shows. Asks the server only for those, never twice at
 * once for one document, and drops an answer that a newer solution has overtaken.
 */
export class Scenes implements vscode.Disposable {
  private readonly watched = new Map<string, Watched>();
  private readonly changed = new vscode.EventEmitter<string>();
  private readonly failed = new vscode.EventEmitter<string>();
  /** Fires with the address of a document whose scene is new. */
  readonly onDidChange = this.changed.event;
  /** Fires with a sentence for the user when no scene can come any more, unless the server is started again. */
  readonly onDidFail = this.failed.event;
  failure: string | undefined;

  private readonly closing = vscode.workspace.onDidCloseTextDocument((document) => {
    const entry = this.watched.get(document.uri.toString());
    if (entry) entry.version = 0;
  });

  constructor(private readonly client: BaseLanguageClient) {}

  /** Keeps the scene of `uri` fresh until the result is disposed of. */
  watch(uri: string): vscode.Disposable {
    const entry = this.watched.get(uri) ?? { viewers: 0, version: 0, throttle: new Throttle(REST, () => this.fetch(uri)) };
    this.watched.set(uri, entry);
    entry.viewers++;
    if (!entry.scene) entry.throttle.run();
    let open = true;
    return new vscode.Disposable(() => {
      if (!open) return;
      open = false;
      if (--entry.viewers > 0) return;
      entry.throttle.dispose();
      this.watched.delete(uri);
    });
  }

  /** What makes the newest scene of `scene`, where that is the one before. */
  changeOf(scene: Scene | undefined): SceneChange | undefined {
    const { change } = (scene && this.watched.get(scene.uri)) ?? {};
    return change && change.of === scene ? change.change : undefined;
  }

  get(uri: string): Scene | undefined {
    return this.failure ? undefined : this.watched.get(uri)?.scene;
  }

  /** The server has solved `version` of `uri`. */
  solved(uri: string, version: number): void {
    this.failure = undefined;
    const entry = this.watched.get(uri);
    if (entry && version >= entry.version) entry.throttle.run();
  }

  fail(message: string): void {
    this.failure = message;
    this.failed.fire(message);
  }

  dispose(): void {
    for (const { throttle } of this.watched.values()) throttle.dispose();
    this.watched.clear();
    this.closing.dispose();
    this.changed.dispose();
    this.failed.dispose();
  }

  private async fetch(uri: string): Promise<void> {
    if (!this.client.isRunning()) return;
    const asked = this.watched.get(uri);
    const params: SceneParams = { uri, ...(asked?.stamp !== undefined && { have: asked.stamp }) };
    const before = asked?.scene;
    let reply: SceneReply;
    try {
      reply = await this.client.sendRequest(SCENE_REQUEST, params);
    } catch (error) {
      // Overtaken by an edit, or the server is on its way down: in both cases it will tell of a solution again.
      this.client.debug(`No scene of ${uri}: ${error}`);
      return;
    }
    const entry = this.watched.get(uri);
    if (!reply || !entry) return;
    const scene = 'scene' in reply ? reply.scene : before && withChange(before, reply.change);
    if (!scene || scene.version < entry.version) {
      // The server reckons with a scene that is not the one here: asked without a stamp it sends the next one whole.
      entry.stamp = undefined;
      if (!scene) entry.throttle.run();
      return;
    }
    entry.stamp = reply.stamp;
    entry.change = 'change' in reply && before ? { of: before, change: reply.change } : undefined;
    entry.scene = scene;
    entry.version = scene.version;
    this.changed.fire(uri);
  }
}
