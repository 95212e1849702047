import type { Scene, SceneAlternative } from '../../server/protocol/scene';
import type { HostMessage, NoteAddress, PanelMessage } from './messages';

/** The other ways to play the notes looked at, asked for once each and forgotten with their scene. */
export class OtherWays {
  private scene: Scene | undefined;
  private readonly known = new Map<string, readonly SceneAlternative[] | undefined>();

  constructor(private readonly send: (message: PanelMessage) => void) {}

  /** Those of one note; undefined, and asked for, while they aren't known. */
  of(scene: Scene, at: NoteAddress): readonly SceneAlternative[] | undefined {
    if (scene !== this.scene) {
      this.scene = scene;
      this.known.clear();
    }
    const key = keyOf(at);
    if (!this.known.has(key)) {
      this.known.set(key, undefined);
      this.send({ type: 'ask', uri: scene.uri, version: scene.version, at });
    }
    return this.known.get(key);
  }

  /** An answer has come. False where it is for a scene no longer shown. */
  take(scene: Scene | undefined, { version, at, alternatives }: Extract<HostMessage, { type: 'alternatives' }>): boolean {
    if (!scene || scene !== this.scene || version !== scene.version || !this.known.has(keyOf(at))) return false;
    this.known.set(keyOf(at), alternatives);
    return true;
  }
}

function keyOf({ passage, event }: NoteAddress): string {
  return `${passage} ${event}`;
}
