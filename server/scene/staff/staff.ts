import { t } from '../../l10n/translate';
import type { ScenePassage } from '../../protocol/scene';
import { num, tag } from '../svg';
import { inPieces, restsTogether, staffBars } from './bars';
import { type EngravedBar, engrave } from './engrave';
import { hairpinAfter } from './hairpins';
import type { Marking } from './marks';
import type { SystemPlan } from './plan';
import { addSignature, keyName, type Signature, signatureIn, signatureOf } from './signature';
import { begBar, drawSystem, moved, type NoteBox, newStave } from './system';

export interface StaffOptions {
  /** Width to fill, px; a staff space is 10 px. */
  readonly width: number;
  /** Only these bars, by their index; all of them unless set. */
  readonly bars?: { readonly first: number; readonly end: number };
  /** More of the passage follows this drawing: its bars are shared out evenly, so that no line is left short. */
  readonly even?: boolean;
  /** Which fingerings are printed: where the hand does something new unless set. */
  readonly marking?: Marking;
}

/** The staff as one SVG; unit px. `boxes` are the columns of the notes in it, in order. */
export interface StaffDrawing {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  readonly boxes: readonly NoteBox[];
}

const MARGIN = 10;
/** Between systems, px. */
const GAP = 22;
/** A line that is not full is not pulled wider than this many times its natural width. */
const LOOSEST = 1.5;
/** What a line's head takes, and what a sign with its accidental does, px, about: for breaking a bar that fits no line. */
const HEAD = 110;
const SIGN_WIDTH = 42;
/** A piece of a bar has at least this many signs. */
const FEWEST = 4;
/** Narrower than this nothing can be read: the drawing is then wider than asked for. */
const NARROWEST = 260;

/** A passage as printed: diamonds, circles, fingerings, strings, what sounds, slurs, bows, dynamics, tempo; broken into systems. */
export function drawStaff(passage: ScenePassage, options: StaffOptions): StaffDrawing {
  const { plans, width } = planned(passage, options);
  let y = MARGIN;
  const boxes: NoteBox[] = [];
  const markup = plans.map((plan) => {
    const drawn = drawSystem(plan, passage.events);
    const down = y - drawn.top;
    boxes.push(...drawn.boxes.map((box) => ({ ...box, y: box.y + down })));
    y += drawn.bottom - drawn.top + GAP;
    return moved(drawn.markup, down);
  });
  const height = Math.ceil(y - (plans.length > 0 ? GAP : 0) + MARGIN);
  const notes = passage.events.length;
  const label = passage.title
    ? t('Staff: {title}, {notes} notes', { title: passage.title, notes })
    : t('Staff, {notes} notes', { notes });
  return { svg: svgOf(markup.join(''), width, height, label), width, height, boxes };
}

/** The same system by system, each a drawing of its own: for paper, where they are laid on pages. */
export function drawSystems(passage: ScenePassage, options: StaffOptions): readonly StaffDrawing[] {
  const { plans, width } = planned(passage, options);
  return plans.map((plan, index) => {
    const { markup, top, bottom, boxes } = drawSystem(plan, passage.events);
    const height = Math.ceil(bottom - top);
    const label = passage.title
      ? t('Staff: {title}, line {line} of {lines}', { title: passage.title, line: index + 1, lines: plans.length })
      : t('Staff, line {line} of {lines}', { line: index + 1, lines: plans.length });
    const svg = svgOf(moved(markup, -top), width, height, label);
    return { svg, width, height, boxes: boxes.map((box) => ({ ...box, y: box.y - top })) };
  });
}

function planned(
  passage: ScenePassage,
  options: StaffOptions,
): { readonly plans: readonly SystemPlan[]; readonly width: number } {
  const signature = signatureOf(passage);
  const wide = Math.max(options.width, NARROWEST) - 2 * MARGIN;
  const most = Math.max(FEWEST, Math.floor((wide - HEAD) / SIGN_WIDTH));
  let meter: string | undefined;
  const all = staffBars(passage);
  const metered = all.map((bar) => {
    meter = bar.meter ?? meter;
    return { bar, meter };
  });
  const bars = restsTogether(metered.slice(options.bars?.first ?? 0, options.bars?.end)).flatMap((each) => {
    const here = signatureIn(signature, each.bar);
    const whole = engrave(each.bar, passage.events, here, each.meter);
    if (whole.least + HEAD <= wide) return [whole];
    return inPieces(each.bar, most).map((piece) => engrave(piece, passage.events, here, each.meter));
  });
  const plans = systems(bars, wide, options.even ?? false, {
    usual: signature,
    board: passage.board,
    marking: options.marking ?? 'changes',
    hairpin: hairpinAfter(all.slice(0, options.bars?.first ?? 0), passage.events, undefined),
    events: passage.events,
  });
  // Only a few signs that are wider than the sheet all by themselves make the drawing wider than asked for.
  const width = Math.max(
    options.width,
    ...plans.map(({ widths }) => Math.floor(widths.reduce((sum, each) => sum + each, 2 * MARGIN))),
  );
  return { plans, width };
}

function svgOf(markup: string, width: number, height: number, label: string): string {
  return tag(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'pw-staff',
      viewBox: `0 0 ${num(width)} ${height}`,
      width,
      height,
      role: 'img',
      'aria-label': label,
      'font-family': 'system-ui, "Segoe UI", Helvetica, Arial, sans-serif',
    },
    markup,
  );
}

/** A bar and what its head takes at the start of a line and after it, px. */
interface Wanted {
  readonly bar: EngravedBar;
  readonly first: number;
  readonly later: number;
}

interface Row {
  readonly bars: EngravedBar[];
  /** What stands before each bar's first note, px: never pulled wider. */
  readonly heads: number[];
  /** The next bar did not fit. */
  full: boolean;
}

/** Bars into lines, shared out evenly and pulled out to the whole width. What is said over a bar begins a line. */
function systems(
  bars: readonly EngravedBar[],
  wide: number,
  even: boolean,
  { events, ...whole }: Pick<SystemPlan, 'usual' | 'board' | 'marking' | 'hairpin'> & Pick<ScenePassage, 'events'>,
): readonly SystemPlan[] {
  const wanted = bars.map((bar) => ({
    bar,
    first: headWidth(bar, signatureIn(whole.usual, bar.bar)),
    later: headWidth(bar),
  }));
  let open = whole.hairpin;
  return evened(wanted, wide).map((line, index, lines) => {
    const hairpin = open;
    open = hairpinAfter(
      line.bars.map(({ bar }) => bar),
      events,
      open,
    );
    const last = index === lines.length - 1;
    const music = sum(line.bars.map(({ least }) => least));
    const stretch = (wide - sum(line.heads)) / music;
    const loosest = line.full || even ? Number.POSITIVE_INFINITY : LOOSEST;
    return {
      bars: line.bars,
      widths: line.bars.map(({ least }, bar) => (line.heads[bar] as number) + least * Math.max(1, Math.min(stretch, loosest))),
      left: MARGIN,
      wide,
      ...whole,
      hairpin,
      signature: line.bars[0] ? signatureIn(whole.usual, line.bars[0].bar) : whole.usual,
      last: !even && last,
    };
  });
}

function rows(bars: readonly Wanted[], wide: number): Row[] {
  const lines: Row[] = [];
  for (const { bar, first, later } of bars) {
    const line = lines.at(-1);
    const fits = line && natural(line) + later + bar.least <= wide;
    if (line && !fits) line.full = true;
    if (line && fits && bar.bar.instructions.length === 0 && bar.bar.marks.length === 0) {
      line.bars.push(bar);
      line.heads.push(later);
    } else lines.push({ bars: [bar], heads: [first], full: false });
  }
  return lines;
}

/** The same number of lines, as narrow as it can be had: then none is much shorter than the others. */
function evened(bars: readonly Wanted[], wide: number): readonly Row[] {
  let best = rows(bars, wide);
  const count = best.length;
  for (let low = wide / 4, high = wide; count > 1 && high - low > 8; ) {
    const middle = (low + high) / 2;
    const tried = rows(bars, middle);
    if (tried.length > count) low = middle;
    else {
      high = middle;
      best = tried;
    }
  }
  return best;
}

function natural({ bars, heads }: Row): number {
  return sum(heads) + sum(bars.map(({ least }) => least));
}

function sum(widths: readonly number[]): number {
  return widths.reduce((total, each) => total + each, 0);
}

/** Width of what stands before a bar's first note, px. */
function headWidth(bar: EngravedBar, signature?: Signature): number {
  const stave = newStave(0, 500);
  if (signature) addSignature(stave, signature);
  else {
    if (bar.bar.newClef) stave.addClef(bar.bar.clef ?? 'treble', 'small');
    if (bar.bar.newKey) stave.addKeySignature(keyName(bar.bar.key));
  }
  if (bar.bar.meter !== undefined) stave.addTimeSignature(bar.bar.meter);
  stave.setBegBarType(begBar(bar.bar));
  return stave.getNoteStartX();
}
