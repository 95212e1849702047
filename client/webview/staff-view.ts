import type { ScenePassage } from '../../server/protocol/scene';
import { drawStaff, type StaffDrawing } from '../../server/scene/staff/staff';
import { element, showDrawing } from './element';

/** Bars drawn at a time: a book of studies is turned over page by page, since engraving all of it would hold up the panel. */
const PAGE = 32;
const PICTURE_WIDTH = 1400;

/** A note was pressed; `extend` with Shift, `twice` for a double click. */
export type StaffPress = (event: number, how: { readonly extend: boolean; readonly twice: boolean }) => void;

export interface Marks {
  readonly selected: number;
  readonly range: readonly [number, number] | undefined;
  readonly playing: number | undefined;
}

/** The staff, engraved anew only when passage, page or width change; marks move over it. */
export class StaffView {
  readonly root = element('div', {
    class: 'staff',
    tabindex: 0,
    role: 'group',
    'aria-label': 'Staff',
    'aria-describedby': 'account',
  });
  private passage: ScenePassage | undefined;
  private width = 0;
  private page = -1;
  private marked: Marks | undefined;

  constructor(press: StaffPress) {
    this.root.addEventListener('click', (click) => {
      const event = eventAt(click);
      if (event !== undefined) press(event, { extend: click.shiftKey, twice: click.detail > 1 });
    });
  }

  show(passage: ScenePassage | undefined, width: number): void {
    if (passage === this.passage && width === this.width) return;
    this.passage = passage;
    this.width = width;
    this.page = -1;
    if (!passage) this.root.replaceChildren();
    else if (this.marked) this.mark(this.marked);
  }

  mark(marks: Marks): void {
    this.marked = marks;
    if (!this.passage) return;
    this.turnTo(marks.playing ?? marks.selected);
    for (const group of this.root.querySelectorAll<SVGElement>('[data-event]')) {
      const event = Number(group.dataset.event);
      group.classList.toggle('pw-on', event === marks.selected);
      group.classList.toggle('pw-playing', event === marks.playing);
      group.classList.toggle('pw-range', marks.range !== undefined && event >= marks.range[0] && event <= marks.range[1]);
    }
    this.keepInSight(marks.playing ?? marks.selected);
  }

  /** For a file: the whole passage, always of the same width. */
  picture(): StaffDrawing | undefined {
    return this.passage && drawStaff(this.passage, { width: PICTURE_WIDTH });
  }

  private turnTo(event: number): void {
    const passage = this.passage as ScenePassage;
    const bar = Math.max(
      0,
      passage.bars.findIndex((each) => event >= each.firstEvent && event < each.endEvent),
    );
    const page = Math.floor(bar / PAGE);
    if (page === this.page) return;
    this.page = page;
    showDrawing(this.root, drawStaff(passage, { width: this.width, bars: { first: page * PAGE, end: (page + 1) * PAGE } }).svg);
  }

  private keepInSight(event: number): void {
    const note = this.root.querySelector(`[data-event="${event}"]`);
    if (!note) return;
    const box = note.getBoundingClientRect();
    const frame = this.root.getBoundingClientRect();
    if (box.top >= frame.top && box.bottom <= frame.bottom && box.left >= frame.left && box.right <= frame.right) return;
    const smooth = !window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    const middle = (low: number, high: number, size: number): number => (low + high) / 2 - size / 2;
    this.root.scrollBy({
      top: middle(box.top, box.bottom, frame.height) - frame.top,
      left: middle(box.left, box.right, frame.width) - frame.left,
      behavior: smooth ? 'smooth' : 'auto',
    });
  }
}

function eventAt(click: MouseEvent): number | undefined {
  const group = (click.target as Element).closest<SVGElement>('[data-event]');
  return group ? Number(group.dataset.event) : undefined;
}
