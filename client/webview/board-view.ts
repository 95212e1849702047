import { t } from '../../server/l10n/translate';
import type { HeardMark } from '../../server/protocol/heard';
import type { SceneAlternative, ScenePassage } from '../../server/protocol/scene';
import { type BoardDrawing, drawBoard, scaleToFit } from '../../server/scene/board/board';
import { reachOfNotes, reachOfPassage } from '../../server/scene/board/frame';
import { element, showDrawing } from './element';

/** A panel narrower than this shows the board upright, px. */
const NARROW = 560;
/** One narrower than this has no room beside the staff: the board stands below it, px. */
export const SLIM = 500;
/** Length of an upright board, px: a share of the window's height, within reason. */
const UPRIGHT = { least: 260, most: 540, share: 0.58 };
const BELOW = { least: 200, most: 400, share: 0.33 };
/** Of a saved picture, px. */
const PICTURE_WIDTH = 1400;

export interface BoardState {
  readonly passage: ScenePassage;
  readonly event: number;
  readonly other?: SceneAlternative | undefined;
  readonly wholeString: boolean;
  /** What a recording holds of the event. */
  readonly heard?: readonly HeardMark[] | undefined;
}

/** The fingerboard, drawn as large as the panel lets it. */
export class BoardView {
  readonly root = element('div', { class: 'board', tabindex: 0, role: 'group', 'aria-label': t('Fingerboard') });
  private state: BoardState | undefined;

  show(state: BoardState | undefined, width: number): void {
    this.state = state;
    const upright = width < NARROW;
    this.root.classList.toggle('upright', upright);
    if (!state) {
      this.root.replaceChildren();
      return;
    }
    const { least, most, share } = width < SLIM ? BELOW : UPRIGHT;
    const length = upright ? Math.min(most, Math.max(least, window.innerHeight * share)) : width;
    showDrawing(this.root, draw(state, length, upright).svg);
  }

  /** For a file: always lying, always of the same size. */
  picture(): BoardDrawing | undefined {
    return this.state && draw({ ...this.state, other: undefined }, PICTURE_WIDTH, false);
  }
}

function draw({ passage, event, other, wholeString, heard }: BoardState, length: number, upright: boolean): BoardDrawing {
  const { board } = passage;
  const end = wholeString ? board.length : Math.max(reachOfPassage(passage), other ? reachOfNotes(board, other.notes) : 0);
  return drawBoard(passage, event, { scale: scaleToFit(end, length, upright), upright, end, other, heard });
}
