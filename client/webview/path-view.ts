import { t } from '../../server/l10n/translate';
import type { ScenePassage } from '../../server/protocol/scene';
import { drawPath, eventNear, type PathDrawing } from '../../server/scene/path/path';
import { SLIM } from './board-view';
import { element, showDrawing } from './element';

const HEIGHT = 120;

/** The path of the hand over the whole passage; a press goes to the note there. By keyboard the same is had by arrows and bar. */
export class PathView {
  private readonly drawing = element('div', { class: 'drawing' });
  private readonly here = element('div', { class: 'here', 'aria-hidden': 'true' });
  private readonly frame = element('div', { class: 'path' }, this.drawing, this.here);
  readonly root = element('details', { open: true }, element('summary', {}, t('Path of the hand')), this.frame);
  private passage: ScenePassage | undefined;
  private width = 0;
  private drawn: PathDrawing | undefined;

  constructor(press: (event: number) => void) {
    this.frame.addEventListener('click', (click) => {
      if (this.drawn) press(eventNear(this.drawn.xs, click.clientX - this.frame.getBoundingClientRect().left));
    });
  }

  show(passage: ScenePassage, width: number): void {
    if (width <= 0 || (passage === this.passage && width === this.width)) return;
    // In a slim panel board and staff come first; who wants the path opens it.
    if (this.width === 0 || width < SLIM !== this.width < SLIM) this.root.open = width >= SLIM;
    this.passage = passage;
    this.width = width;
    this.drawn = drawPath(passage, { width, height: HEIGHT });
    showDrawing(this.drawing, this.drawn.svg);
  }

  mark(event: number): void {
    const x = this.drawn?.xs[event];
    this.here.hidden = x === undefined;
    if (x === undefined || !this.drawn) return;
    this.here.style.left = `${x - 1}px`;
    this.here.style.top = `${this.drawn.top}px`;
    this.here.style.height = `${this.drawn.bottom - this.drawn.top}px`;
  }
}
