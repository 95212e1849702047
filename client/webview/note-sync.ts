import type { Scene } from '../../server/protocol/scene';
import type { HostMessage, NoteAddress, PanelMessage } from './messages';

/**
 * Which note panel and editor agree on, without loops (the rules are told in messages.ts). Pure state: what a
 * person does gives a message to send, what the host says gives a note to show or nothing.
 */
export class NoteSync {
  private turn = 0;
  private scene: Scene | undefined;
  private selected: NoteAddress | undefined;
  /** The other end of a choice of several notes. */
  private anchor: number | undefined;

  get at(): NoteAddress | undefined {
    return this.selected;
  }

  /** First and last event of a choice of several notes. */
  get range(): readonly [number, number] | undefined {
    const event = this.selected?.event;
    if (this.anchor === undefined || event === undefined || this.anchor === event) return undefined;
    return [Math.min(this.anchor, event), Math.max(this.anchor, event)];
  }

  /** A new scene: the host's note, else the old one where it still exists, else the first there is. */
  show(scene: Scene, at: NoteAddress | undefined): NoteAddress | undefined {
    const kept = this.scene?.uri === scene.uri ? this.selected : undefined;
    this.scene = scene;
    this.anchor = undefined;
    const first = scene.passages.findIndex(({ events }) => events.length > 0);
    this.selected = [at, kept, kept && this.clamped(kept), { passage: first, event: 0 }].find(
      (each) => each && this.exists(each),
    );
    return this.selected;
  }

  /**
   * A person chose a note in the panel, or with `extend` all from the one before to this. Returns what to tell the host,
   * or undefined where there is no such note.
   */
  choose(at: NoteAddress, { focus = false, extend = false } = {}): PanelMessage | undefined {
    if (!this.scene || !this.exists(at)) return undefined;
    this.anchor = extend && at.passage === this.selected?.passage ? (this.anchor ?? this.selected.event) : undefined;
    this.selected = at;
    this.turn += 1;
    return { type: 'reveal', uri: this.scene.uri, version: this.scene.version, at, turn: this.turn, focus };
  }

  /** The host tells where the editor's cursor is. Returns the note to show, or undefined where that is out of date. */
  follow({ version, at, turn }: Extract<HostMessage, { type: 'cursor' }>): NoteAddress | undefined {
    if (!this.scene || version !== this.scene.version || turn < this.turn || !this.exists(at)) return undefined;
    this.selected = at;
    this.anchor = undefined;
    return at;
  }

  private exists({ passage, event }: NoteAddress): boolean {
    return this.scene?.passages[passage]?.events[event] !== undefined;
  }

  /** The last note of the passage, where the old one has been cut off its end. */
  private clamped({ passage, event }: NoteAddress): NoteAddress {
    const count = this.scene?.passages[passage]?.events.length ?? 0;
    return { passage, event: Math.min(event, count - 1) };
  }
}
