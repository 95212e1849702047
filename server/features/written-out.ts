import { isStress, levelAfter } from '../../grammar/marks';
import { printNote, printRest } from '../../grammar/print';
import type { Dynamic, Item, MotifUse, NoteNode } from '../../grammar/tree';
import { walkItems } from '../../grammar/walk';
import { exactDuration } from '../music/choice';
import { durationText } from '../music/duration';
import type { Exact } from '../music/time';
import type { Atom, EventAtom } from '../passage/atom';
import { changed } from '../passage/change';
import { type Context, UNMARKED } from '../passage/context';
import { BY_TURNS, turnsMark } from '../passage/ornament';
import type { Mark } from '../passage/passage';
import { sameQuestion } from '../passage/pins';
import { contextAt, type Resolved } from '../passage/resolve';

/** What holds where a motif is used. In another motif's notes that depends on a further use, and stays open. */
interface Surroundings {
  readonly duration: Exact | undefined;
  readonly dynamic: Dynamic | undefined;
  /** The use is under a bow stroke, which swallows the motif's own. */
  readonly stroke: boolean;
}

/** The notes that a use of a motif stands for, as text. */
export interface WrittenOut {
  /** The notes alone, as a hover shows them. */
  readonly notes: string;
  /**
   * What takes the place of the use: the notes, and after them the duration and dynamic that held before. Absent inside a
   * motif where no duration or dynamic stands that could be written again.
   */
  readonly text?: string;
}

/** What a use of a motif on a line stands for, as an editor would write it there; undefined where there are no notes. */
export function motifText(resolved: Resolved, line: number, use: MotifUse): WrittenOut | undefined {
  const node = resolved.tree.lines[line]?.node;
  const expansion = resolved.motifs.expansion(use.name.text);
  if (!expansion || (node?.kind !== 'music' && node?.kind !== 'motif')) return undefined;
  // What holds at the start of a line of music; a motif's line has none.
  const context = contextAt(resolved, line);
  const { around, next } = surroundings(node.items, use, context);
  const { notes, duration, dynamic, lost } = print(changed(expansion.atoms, use.changes), around);
  const last = next === undefined && node.kind === 'motif';
  const restore: string[] = [];
  if (!last && duration !== around.duration && next?.kind !== 'duration') {
    if (!around.duration) return { notes };
    restore.push(durationText(around.duration));
  }
  if (!last && dynamic !== around.dynamic && next?.kind !== 'dynamic') {
    if (!around.dynamic) return { notes };
    restore.push(around.dynamic);
  }
  return lost ? { notes } : { notes, text: [notes, ...restore].join(' ') };
}

function surroundings(
  items: readonly Item[],
  use: MotifUse,
  context: Pick<Context, 'duration' | 'dynamic'> | undefined,
): { readonly around: Surroundings; readonly next: Item | undefined } {
  let duration = context?.duration;
  let dynamic = context && (context.dynamic ?? UNMARKED);
  let stroke = false;
  let next: Item | undefined;
  let passed = false;
  walkItems(items, (item, strokes) => {
    if (passed) {
      next ??= item;
    } else if (item === use) {
      stroke = strokes.length > 0;
      passed = true;
    } else if (item.kind === 'duration') duration = exactDuration(item) ?? duration;
    else if (item.kind === 'dynamic') dynamic = levelAfter(item.level) ?? dynamic;
  });
  return { around: { duration, dynamic, stroke }, next };
}

interface Printed {
  readonly notes: string;
  /** What holds after them. */
  readonly duration: Exact | undefined;
  readonly dynamic: Dynamic | undefined;
  /** Something in them goes back to what holds around the use, which isn't known. */
  readonly lost: boolean;
}

function print(atoms: readonly Atom[], around: Surroundings): Printed {
  let { duration, dynamic } = around;
  let lost = false;
  const words: string[] = [];
  let stroke: EventAtom['stroke'];
  let byTurns: Mark | undefined;
  atoms.forEach((atom, index) => {
    if (atom.kind === 'bar') {
      words.push(atom.style);
      return;
    }
    if (atom.kind === 'direction' || atom.kind === 'jump' || atom.kind === 'ending') {
      words.push(atom.kind === 'ending' ? `ending ${atom.times.join(', ')}` : atom.word);
      return;
    }
    const length = atom.duration ?? around.duration;
    const grace = atom.kind === 'event' && atom.grace ? length : undefined;
    if (length !== duration && !grace && !(atom.kind === 'rest' && atom.bars !== undefined)) {
      if (length) words.push(durationText(length));
      else lost = true;
      duration = length;
    }
    if (atom.kind === 'rest') {
      if (atom.says) {
        words.push(atom.says);
        dynamic = atom.says;
      }
      words.push(`${marksBefore(atom.marks)}${printRest(atom.bars)}`);
      return;
    }
    const level = atom.dynamic ?? around.dynamic;
    if (level !== dynamic || atom.says) {
      if (level) words.push(level);
      else lost = true;
      dynamic = level;
    }
    const own = around.stroke ? undefined : atom.stroke;
    const opens = own && own !== stroke ? `${own.direction ?? 'slur'}(` : '';
    const closes = own && own !== nextStroke(atoms, index) ? ')' : '';
    stroke = own;
    const turns = turnsMark(atom.marks);
    const begins = turns && turns !== byTurns;
    byTurns = begins ? turns : undefined;
    const ends = turns && !begins ? ')' : '';
    words.push(
      `${opens}${begins ? `${turns.word}(${turns.value ? `${durationText(turns.value)} ` : ''}` : ''}${marksBefore(atom.marks)}${grace ? `grace(${durationText(grace)} ` : ''}${atom.slide ? 'slide ' : ''}${atom.notes.map((note) => printNote(alone(note, atom.around))).join('+')}${grace ? ')' : ''}${ends}${closes}`,
    );
  });
  return { notes: words.join(' '), duration, dynamic, lost };
}

/** Marks as words before a note; a measured tremolo can't be one, and is said as an unmeasured one. */
function marksBefore(marks: EventAtom['marks'] = []): string {
  const printed = marks.filter(({ word }) => word !== BY_TURNS);
  const stresses = printed.filter(({ word }) => isStress(word));
  return [...stresses, ...printed.filter((mark) => !stresses.includes(mark))].map(({ word }) => `${word} `).join('');
}

/** A note with the hints of its groups behind it as its own. */
function alone(note: NoteNode, around: EventAtom['around'] = []): NoteNode {
  const own = note.hints?.hints ?? [];
  const hints = [...own];
  for (const hint of around.flatMap((list) => list.hints)) {
    if (!hints.some((known) => sameQuestion(known, hint))) hints.push(hint);
  }
  return hints.length === own.length ? note : { ...note, hints: { start: note.end, end: note.end, hints } };
}

function nextStroke(atoms: readonly Atom[], index: number): EventAtom['stroke'] {
  for (let next = index + 1; next < atoms.length; next++) {
    const atom = atoms[next];
    if (atom?.kind === 'event') return atom.stroke;
  }
  return undefined;
}
