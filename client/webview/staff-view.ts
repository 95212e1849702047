import { t } from '../../server/l10n/translate';
import type { ScenePassage } from '../../server/protocol/scene';
import type { Marking } from '../../server/scene/staff/marks';
import { drawStaff, type StaffDrawing } from '../../server/scene/staff/staff';
import { element, showDrawing } from './element';
import { type HeardEvents, markHeard } from './heard-marks';

/**
 * Bars engraved at a time. A book of studies scrolls as a whole, but only what is in sight is drawn: engraving all of it would hold up
 * the panel.
 */
const STRETCH = 16;
/** How far outside the window stretches are drawn ahead, and how far away they are let go, px. */
const AHEAD = 500;
const PICTURE_WIDTH = 1400;
/** Height of a bar before any is drawn, px. */
const GUESS = 60;

/** A note was pressed; `extend` with Shift, `twice` for a double click. */
export type StaffPress = (event: number, how: { readonly extend: boolean; readonly twice: boolean }) => void;

export interface Marks {
  readonly selected: number;
  readonly range: readonly [number, number] | undefined;
  readonly playing: number | undefined;
}

/** The staff of a whole passage, engraved as it comes into sight; marks move over it. */
export class StaffView {
  readonly root = element('div', {
    class: 'staff',
    tabindex: 0,
    role: 'group',
    'aria-label': t('Staff'),
    'aria-describedby': 'account',
  });
  private passage: ScenePassage | undefined;
  private width = 0;
  private zoom = 1;
  private marking: Marking = 'changes';
  private marked: Marks | undefined;
  private heard: HeardEvents = new Map();
  private stretches: HTMLElement[] = [];
  private readonly drawn = new Set<number>();
  private readonly sight = new IntersectionObserver((seen) => this.seen(seen), { root: this.root, rootMargin: `${AHEAD}px 0px` });

  constructor(press: StaffPress) {
    // The keyboard comes into the panel at the music.
    window.addEventListener('focus', () => {
      if (document.activeElement === document.body) this.root.focus({ preventScroll: true });
    });
    this.root.addEventListener('click', (click) => {
      const event = eventAt(click);
      if (event !== undefined) press(event, { extend: click.shiftKey, twice: click.detail > 1 });
    });
  }

  show(passage: ScenePassage | undefined, width: number, zoom = 1): void {
    if (passage === this.passage && width === this.width && zoom === this.zoom) return;
    this.passage = passage;
    this.width = width;
    this.zoom = zoom;
    this.lay();
  }

  /** Which fingerings are printed. */
  print(marking: Marking): void {
    if (marking === this.marking) return;
    this.marking = marking;
    this.lay();
  }

  /** Keeps a place for every stretch; each is engraved when it comes into sight. */
  private lay(): void {
    const { passage, zoom } = this;
    this.sight.disconnect();
    this.drawn.clear();
    const count = Math.ceil((passage?.bars.length ?? 0) / STRETCH);
    this.stretches = Array.from({ length: count }, (_, index) => {
      const stretch = element('div', { class: 'stretch', 'data-stretch': index });
      stretch.style.minHeight = `${GUESS * STRETCH * zoom}px`;
      return stretch;
    });
    this.root.replaceChildren(...this.stretches);
    for (const stretch of this.stretches) this.sight.observe(stretch);
    if (this.marked && passage) this.mark(this.marked);
  }

  mark(marks: Marks): void {
    const moved = marks.selected !== this.marked?.selected || marks.playing !== this.marked?.playing;
    this.marked = marks;
    if (!this.passage) return;
    const event = marks.playing ?? marks.selected;
    const here = this.stretchOf(event);
    const fresh = this.draw(here);
    // What is drawn above a note after it has been scrolled to would push it out of sight.
    if (fresh) this.draw(here - 1);
    for (const index of this.drawn) this.markIn(index);
    if (moved || fresh) this.keepInSight(event);
  }

  /** What a recording holds of the notes. */
  showHeard(heard: HeardEvents): void {
    this.heard = heard;
    for (const index of this.drawn) this.heardIn(index);
  }

  /** For a file: the whole passage, always of the same width. */
  picture(): StaffDrawing | undefined {
    return this.passage && drawStaff(this.passage, { width: PICTURE_WIDTH, marking: this.marking });
  }

  private stretchOf(event: number): number {
    const bar = this.passage?.bars.findIndex((each) => event >= each.firstEvent && event < each.endEvent) ?? 0;
    return Math.floor(Math.max(0, bar) / STRETCH);
  }

  private seen(entries: readonly IntersectionObserverEntry[]): void {
    for (const { target, isIntersecting } of entries) {
      const index = this.stretches.indexOf(target as HTMLElement);
      if (index < 0) continue;
      if (isIntersecting) {
        if (this.draw(index)) this.markIn(index);
      } else this.letGo(index);
    }
  }

  /** True where it was not drawn yet. */
  private draw(index: number): boolean {
    const { passage } = this;
    const stretch = this.stretches[index];
    if (!passage || !stretch || this.drawn.has(index)) return false;
    this.drawn.add(index);
    const first = index * STRETCH;
    const end = first + STRETCH;
    const { zoom, marking } = this;
    const drawing = drawStaff(passage, {
      width: this.width / zoom,
      bars: { first, end },
      even: end < passage.bars.length,
      marking,
    });
    showDrawing(stretch, drawing.svg);
    const svg = stretch.firstElementChild;
    // The engraver's narrowest line is shown smaller in a narrower panel, unless somebody wants it large.
    const scale = zoom > 1 ? zoom : Math.min(zoom, this.width / drawing.width);
    svg?.setAttribute('width', String(drawing.width * scale));
    svg?.setAttribute('height', String(drawing.height * scale));
    stretch.style.minHeight = '';
    this.heardIn(index);
    return true;
  }

  private heardIn(index: number): void {
    for (const group of this.stretches[index]?.querySelectorAll<SVGElement>('[data-event]') ?? [])
      markHeard(group, this.heard.get(Number(group.dataset.event)));
  }

  /** Empties a stretch far out of sight and keeps its place; the one with the note that is marked stays. */
  private letGo(index: number): void {
    const stretch = this.stretches[index];
    const kept = this.marked && index === this.stretchOf(this.marked.playing ?? this.marked.selected);
    if (!stretch || kept || !this.drawn.delete(index)) return;
    stretch.style.minHeight = `${stretch.offsetHeight}px`;
    stretch.replaceChildren();
  }

  private markIn(index: number): void {
    const { marked } = this;
    if (!marked) return;
    for (const group of this.stretches[index]?.querySelectorAll<SVGElement>('[data-event]') ?? []) {
      const event = Number(group.dataset.event);
      group.classList.toggle('pw-on', event === marked.selected);
      group.classList.toggle('pw-playing', event === marked.playing);
      group.classList.toggle('pw-range', marked.range !== undefined && event >= marked.range[0] && event <= marked.range[1]);
    }
  }

  private keepInSight(event: number): void {
    const note = this.root.querySelector(`[data-event="${event}"]`);
    if (!note) return;
    const box = note.getBoundingClientRect();
    const frame = this.root.getBoundingClientRect();
    if (box.top >= frame.top && box.bottom <= frame.bottom && box.left >= frame.left && box.right <= frame.right) return;
    const middle = (low: number, high: number, size: number): number => (low + high) / 2 - size / 2;
    const top = middle(box.top, box.bottom, frame.height) - frame.top;
    // A long way is not travelled through: what lies between would have to be drawn on the way.
    const far = Math.abs(top) > 2 * frame.height;
    const smooth = !far && !window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    this.root.scrollBy({
      top,
      left: middle(box.left, box.right, frame.width) - frame.left,
      behavior: smooth ? 'smooth' : 'auto',
    });
  }
}

function eventAt(click: MouseEvent): number | undefined {
  const group = (click.target as Element).closest<SVGElement>('[data-event]');
  return group ? Number(group.dataset.event) : undefined;
}
