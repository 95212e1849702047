/**
 * What the extension host and the preview panel say to each other: both unions, both ways, in one
 * place. Types only, so that either side may import it without pulling in the other.
 *
 * Loops can't arise, by two rules. (1) The panel sends `reveal` only for something a person did in
 * the panel, never because a message came in. (2) Every `reveal` carries a `turn`, one higher than
 * the last; the host repeats the highest turn it has acted on in every `cursor`, and the panel drops
 * a `cursor` whose turn is behind its own: that one tells of a place the person has already left.
 */
import type { Heard, HeardCount } from '../../server/protocol/heard';
import type { Scene, SceneAlternative, SceneChange } from '../../server/protocol/scene';
import type { Marking } from '../../server/scene/staff/marks';

/** One note or double stop of a scene, by its place in `scene.passages[passage].events[event]`. */
export interface NoteAddress {
  readonly passage: number;
  readonly event: number;
}

export type ViewName = 'board' | 'staff';

/** What a recording holds of one passage of the document shown. */
export interface HeardMessage {
  readonly type: 'heard';
  /** The document's version that was listened with, and the passage's place in its scene. */
  readonly version: number;
  readonly passage: number;
  /** The recording's name. */
  readonly recording: string;
  readonly heard: Heard;
  readonly counts: readonly HeardCount[];
  /** The player file that they would be counted in, as the passage names it. */
  readonly player?: string;
}

/** Host to panel. */
export type HostMessage =
  /** A new solution, drawn in place of the old one; the panel keeps its selection where the note still exists. */
  | { readonly type: 'scene'; readonly scene: Scene; readonly at?: NoteAddress }
  /** The same, told by what it changes in the scene before it; the panel asks for the `whole` when that is not the one it has. */
  | { readonly type: 'change'; readonly uri: string; readonly change: SceneChange; readonly at?: NoteAddress }
  /**
   * The editor's cursor is on, or nearest to, this note. `version` is the scene's version that the
   * address counts in; a cursor for another version is dropped. `turn` is the highest turn of any
   * `reveal` the host has acted on, 0 before the first.
   */
  | { readonly type: 'cursor'; readonly version: number; readonly at: NoteAddress; readonly turn: number }
  /** Long work: shown as a quiet line until the next `scene`, `failed` or `working` without text. `share` is 0 to 1 where known. */
  | { readonly type: 'working'; readonly text?: string; readonly share?: number }
  /** There is nothing to show, and why: no document, a server that can't start. Shown in place of the views. */
  | { readonly type: 'failed'; readonly message: string }
  /** The other ways to play one note, as asked for by `ask`. The panel drops them when it shows another version by now. */
  | {
      readonly type: 'alternatives';
      readonly version: number;
      readonly at: NoteAddress;
      readonly alternatives: readonly SceneAlternative[];
    }
  /** Which fingerings the staff prints, by the editor's setting. */
  | { readonly type: 'marking'; readonly marking: Marking }
  /** A recording was listened to: shown as long as the document is. */
  | HeardMessage
  /** A command of the editor asks for a file of a view; the panel answers with `export`. */
  | { readonly type: 'export'; readonly view: ViewName; readonly format: ExportFormat };

/** The same with whole scenes only, as the panel sees them (held-scene.ts). */
export type WholeMessage = Exclude<HostMessage, { readonly type: 'change' }>;

export type ExportFormat = 'svg' | 'png';

/** Panel to host. */
export type PanelMessage =
  /** The panel listens: send the scene. Sent again whenever the panel was loaded anew. */
  | { readonly type: 'ready' }
  /** The panel has missed something: send all of the scene. */
  | { readonly type: 'whole' }
  /**
   * A person chose a note in the panel: select `event.range` of the scene in the editor of `uri`.
   * `focus` is true for a double click or Enter: move the keyboard there too. Without it only the
   * selection moves (`preserveFocus`). Ignore it when `version` is not the document's.
   */
  | {
      readonly type: 'reveal';
      readonly uri: string;
      readonly version: number;
      readonly at: NoteAddress;
      readonly turn: number;
      readonly focus: boolean;
    }
  /**
   * The panel has come to this note and shows its other fingerings: ask the server (`passagework/alternatives`) and answer
   * with `alternatives`; a stale version needs no answer. Moves nothing, so it can't start a loop.
   */
  | { readonly type: 'ask'; readonly uri: string; readonly version: number; readonly at: NoteAddress }
  /** A person chose another fingering: ask the server for the edits (`passagework/pin`) and apply them so that undo works. */
  | {
      readonly type: 'pin';
      readonly uri: string;
      readonly version: number;
      readonly at: NoteAddress;
      /** `SceneAlternative.index`. */
      readonly alternative: number;
    }
  /** A person wants the attempts of the recording shown counted in the player file, or taken back. */
  | { readonly type: 'count'; readonly back: boolean }
  /** A drawn view, to be saved where the person says. `data` is the SVG text, or the PNG in base64. */
  | {
      readonly type: 'export';
      readonly view: ViewName;
      readonly format: ExportFormat;
      readonly name: string;
      readonly data: string;
    }
  /** Something broke inside the panel: log it. */
  | { readonly type: 'broke'; readonly message: string };
