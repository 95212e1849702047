import type { Place } from '../../server/protocol/place';
import type { NoteAddress } from '../webview/messages';

interface Range {
  readonly start: Place;
  readonly end: Place;
}

/** As much of a scene as it takes to find one's way in it. */
export interface Places {
  readonly passages: readonly { readonly events: readonly { readonly range: Range }[] }[];
}

/**
 * The note a cursor stands on or, between notes, the nearest one of its own line; on a line without notes the
 * first note below it, and past the last note the last one. Undefined for a scene without notes.
 */
export function nearestNote(scene: Places, cursor: Place): NoteAddress | undefined {
  let best: NoteAddress | undefined;
  let least = Number.POSITIVE_INFINITY;
  scene.passages.forEach(({ events }, passage) => {
    events.forEach(({ range }, event) => {
      const away = distance(range, cursor);
      if (away < least) {
        least = away;
        best = { passage, event };
      }
    });
  });
  return best;
}

/** A line counts as more than any number of characters, upwards as more than any number of lines downwards. */
const LINE = 1e6;
const UPWARDS = 1e12;

function distance({ start, end }: Range, cursor: Place): number {
  if (cursor.line < start.line) return (start.line - cursor.line) * LINE + start.character;
  if (cursor.line > end.line) return UPWARDS + (cursor.line - end.line) * LINE - end.character;
  if (cursor.line === start.line && cursor.character < start.character) return start.character - cursor.character;
  // Just past a note's last character the cursor is still on it, but less so than on a note that begins there.
  if (cursor.line === end.line && cursor.character >= end.character) return cursor.character - end.character + 0.5;
  return 0;
}
