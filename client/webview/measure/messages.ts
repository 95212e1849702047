/** What the extension host and the measuring page say to each other. Types only. */
import type { MeasureReply } from '../../../server/protocol/messages';

/** Host to page: whose hand it is, and on what. `file` is the name of the player file that will be written. */
export type MeasureHostMessage =
  | { readonly type: 'player'; readonly player: MeasureReply; readonly file: string }
  | { readonly type: 'written'; readonly file: string }
  | { readonly type: 'failed'; readonly message: string };

/** Page to host. */
export type MeasurePageMessage =
  | { readonly type: 'ready' }
  /** A person asks for the line to be written: the value of `hand`. */
  | { readonly type: 'write'; readonly hand: string }
  | { readonly type: 'broke'; readonly message: string };
