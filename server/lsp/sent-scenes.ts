import type { SceneReply } from '../protocol/messages';
import type { Scene } from '../protocol/scene';
import { sceneChange } from '../scene/change';
import { buildScene } from '../scene/scene';
import type { Solution } from '../solver/solution';

/** The last scene sent of each document, so that a client that has it still is told only what has changed. */
export class SentScenes {
  private readonly sent = new Map<
    string,
    { readonly stamp: string; readonly scene: Scene; readonly solutions: readonly Solution[] }
  >();
  private count = 0;
  /** A client that outlives the server must not take another server's scene for one of this one's. */
  private readonly session = Math.random().toString(36).slice(2);

  reply(uri: string, version: number, solutions: readonly Solution[], have: string | undefined): SceneReply {
    const last = this.sent.get(uri);
    const scene = buildScene(uri, version, solutions, last?.solutions);
    const stamp = `${this.session}-${++this.count}`;
    this.sent.set(uri, { stamp, scene, solutions });
    const change = last && last.stamp === have ? sceneChange(last.scene, scene) : undefined;
    return change ? { stamp, change } : { stamp, scene };
  }

  closed(uri: string): void {
    this.sent.delete(uri);
  }
}
