import { isStress, levelAfter, REST_MARKS } from '../../grammar/marks';
import { meantBy } from '../../grammar/meant-words';
import { nearest } from '../../grammar/nearest';
import { quoted, replacement } from '../../grammar/problems';
import type { Dynamic, GroupItem, HintList, Item, MotifUse, Span, StrokeItem } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { exactDuration } from '../music/choice';
import { type Exact, exactly } from '../music/time';
import type { Atom, EventAtom, Mutable, Stroke } from './atom';
import { changed } from './change';
import { markedBy, ownMarks, repeatedIn } from './group-marks';
import type { Mark } from './passage';
import { error, type LineProblem } from './problem';

/** What a motif stands for. */
export interface Expansion {
  readonly atoms: readonly Atom[];
  /** With what was left out for want of room. */
  readonly total: number;
}

/** Where uses look motifs up; `expansion` is undefined for a motif that isn't there or contains itself. */
export interface MotifLookup {
  readonly names: readonly string[];
  has(name: string): boolean;
  expansion(name: string): Expansion | undefined;
}

export interface Flat {
  readonly atoms: readonly Atom[];
  readonly total: number;
  /** How many atoms came out of motifs. */
  readonly expanded: number;
  /** Names of the motifs used, defined or not. */
  readonly used: ReadonlySet<string>;
  /** The last written of each, holding from here on; absent when none was written. */
  readonly duration?: Exact;
  readonly dynamic?: Dynamic;
  /** A dynamic that no note or rest follows. */
  readonly says?: Dynamic;
  readonly problems: readonly LineProblem[];
}

/** Notes, rests and bar lines that the motifs of one line, or of one other motif, may stand for together. */
export const MOTIF_ROOM = 4000;

/** The same for all lines of a file, and for all its motifs; what begins below it is still read. */
export const FILE_ROOM = 50_000;

/**
 * Writes out a list of items. Durations and dynamics hold from where they stand; a motif's own hold inside
 * the motif only, and where it has none it takes those of the place of its use. A stroke within a stroke
 * is part of the outer one. `room` bounds what motifs may add.
 */
export function flatten(items: readonly Item[], motifs: MotifLookup, room = MOTIF_ROOM): Flat {
  const atoms: Atom[] = [];
  const problems: LineProblem[] = [];
  const used = new Set<string>();
  let duration: Exact | undefined;
  let dynamic: Dynamic | undefined;
  let stress: Mark | undefined;
  let says: Dynamic | undefined;
  let expanded = 0;
  let omitted = 0;

  // A stack of its own: text may nest strokes deeper than the call stack goes.
  const open: Level[] = [{ items, next: 0, stroke: undefined, around: [], marks: [] }];
  for (let level = open.at(-1); level; level = open.at(-1)) {
    const item = level.items[level.next++];
    if (!item) {
      open.pop();
      if (level.before) duration = level.before.duration;
      continue;
    }
    const { stroke, around, marks } = level;
    const span = { start: item.start, end: item.end };
    switch (item.kind) {
      case 'duration':
        duration = exactDuration(item) ?? duration;
        break;
      case 'dynamic':
        if (isStress(item.level)) stress = { word: item.level };
        else says = item.level as Dynamic;
        dynamic = levelAfter(item.level) ?? dynamic;
        break;
      case 'direction':
      case 'jump':
        atoms.push({ kind: item.kind, word: item.word, span } as Atom);
        break;
      case 'ending':
        atoms.push({ kind: 'ending', times: item.times, span });
        break;
      case 'bar':
        atoms.push(timed({ kind: 'bar', style: item.style, span }, duration));
        break;
      case 'rest':
        if (item.unreadable === undefined) {
          const over = [...marks, ...(item.marks ?? []).map(({ word }): Mark => ({ word }))].filter(isOverRest);
          const said = {
            ...(item.bars !== undefined && { bars: item.bars }),
            ...(over.length > 0 && { marks: over }),
            ...(says && { says }),
          };
          says = undefined;
          atoms.push(timed({ kind: 'rest', span, ...said }, duration));
        } else atoms.push(timed({ kind: 'rest', span, unreadable: true }, duration));
        break;
      case 'event': {
        const event: Mutable<EventAtom> = { kind: 'event', notes: item.notes, slide: item.slide !== undefined, span };
        if (stroke) event.stroke = stroke;
        if (around.length > 0) event.around = around;
        if (dynamic) event.dynamic = dynamic;
        if (says) event.says = says;
        says = undefined;
        const all = [...(stress ? [stress] : []), ...marks, ...ownMarks(item)];
        stress = undefined;
        const own = item.marks?.some(({ word }) => word === 'grace');
        atoms.push(timed(marked(event, all), own ? GRACE : duration));
        break;
      }
      case 'stroke':
        open.push({ items: item.items, next: 0, stroke: stroke ?? newStroke(item), around: within(item, around), marks });
        break;
      case 'group':
        open.push({ stroke, ...inGroup(item, duration), around: within(item, around), marks: markedBy(item, marks) });
        if (item.mark?.word === 'grace') duration = GRACE;
        break;
      case 'motif': {
        used.add(item.name.text);
        const found = written(item, motifs, problems);
        const left = Math.max(0, room - expanded);
        const taken = found.atoms.length > left ? found.atoms.slice(0, left) : found.atoms;
        if (taken.length < found.total) problems.push(tooLong(item, found.total, taken.length));
        omitted = Math.min(Number.MAX_SAFE_INTEGER, omitted + found.total - taken.length);
        expanded += taken.length;
        place(
          taken,
          item.name.text,
          span,
          { stroke, around, marks: stress ? [stress, ...marks] : marks, duration, dynamic, says },
          atoms,
        );
        stress = undefined;
        says = undefined;
        break;
      }
    }
  }
  const total = Math.min(Number.MAX_SAFE_INTEGER, atoms.length + omitted);
  return {
    atoms,
    total,
    expanded,
    used,
    problems,
    ...(duration && { duration }),
    ...(dynamic && { dynamic }),
    ...(says && { says }),
  };
}

/** Items inside a stroke or group, and how far they are read. */
interface Level {
  readonly items: readonly Item[];
  next: number;
  readonly stroke: Stroke | undefined;
  readonly around: readonly HintList[];
  readonly marks: readonly Mark[];
  /** What holds again behind it, where nothing inside holds on. */
  readonly before?: { readonly duration: Exact | undefined };
}

/** What grace notes are printed as where they don't say it themselves: the eighth of common practice. */
const GRACE = exactly(1, 8);

/** The items of a group. The value of a measured tremolo stands before its notes and is no duration of theirs. */
function inGroup(group: GroupItem, duration: Exact | undefined): Pick<Level, 'items' | 'next' | 'before'> {
  const { mark, items } = group;
  if (mark?.word === 'grace') return { items, next: 0, before: { duration } };
  return { items, next: repeatedIn(group) ? 1 : 0 };
}

function marked(event: Mutable<EventAtom>, marks: readonly Mark[]): Mutable<EventAtom> {
  const printed = marks.filter(({ word }) => word !== 'grace');
  if (printed.length > 0) event.marks = printed;
  if (printed.length < marks.length) event.grace = true;
  return event;
}

function isOverRest({ word }: Mark): boolean {
  return (REST_MARKS as readonly string[]).includes(word);
}

function within({ hints }: StrokeItem | GroupItem, around: readonly HintList[]): readonly HintList[] {
  return hints ? [hints, ...around] : around;
}

function timed<T extends Mutable<Atom>>(atom: T, duration: Exact | undefined): T {
  if (duration) atom.duration = duration;
  return atom;
}

/** Names that a wrong one is compared with; more would make a long list of wrong names slow. */
const MOST_NAMES = 200;

function newStroke({ stroke }: StrokeItem): Stroke {
  return stroke === 'slur' ? {} : { direction: stroke };
}

/** The notes a use stands for, its changes made; empty, with a problem, where there are none. */
function written(use: MotifUse, motifs: MotifLookup, problems: LineProblem[]): Expansion {
  const name = use.name.text;
  if (!motifs.has(name)) {
    const meant = meantBy(name);
    const others = nearest(name, motifs.names.slice(0, MOST_NAMES));
    const message = meant
      ? t('{written} is not a word of this language. If you mean {meant}, write that.', { written: quoted(name), meant })
      : t(
          '{written} is neither a note, a word of this language nor a motif of this file. Correct it, or define it on a line of its own: motif {name} = D5 E5 F#5.',
          { written: quoted(name), name },
        );
    const fixes = [...(meant ? [meant] : []), ...others].map((other) => replacement(use.name, other));
    problems.push(error('unknown-motif', use.name, message, fixes));
  }
  const expansion = motifs.expansion(name);
  return expansion ? { total: expansion.total, atoms: changed(expansion.atoms, use.changes) } : { total: 0, atoms: [] };
}

/** Sets a motif's atoms down at their use, each use with strokes of its own. */
function place(
  taken: readonly Atom[],
  motif: string,
  span: Span,
  here: Pick<Level, 'stroke' | 'around' | 'marks'> & {
    duration: Exact | undefined;
    dynamic: Dynamic | undefined;
    says: Dynamic | undefined;
  },
  into: Atom[],
): void {
  const strokes = new Map<Stroke, Stroke>();
  let waiting = here.says;
  for (const atom of taken) {
    const duration = atom.duration ?? here.duration;
    const base = { span, definition: atom.definition ?? { motif, span: atom.span }, ...(duration && { duration }) };
    if (atom.kind !== 'event' && atom.kind !== 'rest') {
      into.push({ ...atom, ...base });
      continue;
    }
    const says = atom.says ?? waiting;
    waiting = undefined;
    if (atom.kind === 'rest') {
      into.push({ ...atom, ...base, ...(says && { says }) });
      continue;
    }
    let stroke = here.stroke;
    if (!stroke && atom.stroke) {
      stroke = strokes.get(atom.stroke) ?? { ...atom.stroke };
      strokes.set(atom.stroke, stroke);
    }
    const dynamic = atom.dynamic ?? here.dynamic;
    const around = [...(atom.around ?? []), ...here.around];
    const marks = [...here.marks.filter(({ word }) => word !== 'grace'), ...(atom.marks ?? [])];
    into.push({
      ...atom,
      ...base,
      ...(stroke && { stroke }),
      ...(around.length > 0 && { around }),
      ...(marks.length > 0 && { marks }),
      ...(here.marks.length > 0 && here.marks.some(({ word }) => word === 'grace') && { grace: true as const }),
      ...(dynamic && { dynamic }),
      ...(says && { says }),
    });
  }
}

function tooLong(use: MotifUse, total: number, read: number): LineProblem {
  const count =
    total >= Number.MAX_SAFE_INTEGER
      ? t('more notes and rests than can be counted')
      : t('{total} notes, rests and bar lines', { total });
  const left = read === 0 ? t('all of it is left out') : t('only the first {read} are read', { read });
  const message = t(
    '{motif} stands for {count} here, more than there is room for ({room} on one line, {all} in a file), so {left}. Use shorter motifs, or spread the uses over several lines.',
    { motif: quoted(use.name.text), count, room: MOTIF_ROOM, all: FILE_ROOM, left },
  );
  return error('motif-too-long', use, message);
}
