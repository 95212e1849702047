import { ordinal, STRING_NAMES } from './hint-names';
import type { Hint, Item, KeyName, LineNode, MotifChange, NoteForm, NoteNode, PitchNode, Tree } from './tree';

/** A node or value without its place, as a fix makes it that has no text yet. */
export type Placeless<T> = T extends readonly (infer Item)[]
  ? readonly Placeless<Item>[]
  : T extends object
    ? { readonly [Key in keyof T as Exclude<Key, 'start' | 'end'>]: Placeless<T[Key]> }
    : T;

const ACCIDENTALS: Readonly<Record<number, string>> = { [-2]: 'bb', [-1]: 'b', 0: '', 1: '#', 2: '##' };

/**
 * The file in its plainest spelling, one line for each line of the tree. Reading it gives the same tree but
 * for the places; pieces that could not be read at all (they are reported, and in no node) are not printed.
 */
export function print(tree: Tree): string {
  return tree.lines.map(({ node }) => printLine(node)).join('\n');
}

export function printLine(node: Placeless<LineNode>): string {
  const body = printBody(node);
  if (!node.comment) return body;
  return body === '' ? node.comment.text : `${body}  ${node.comment.text}`;
}

function printBody(node: Placeless<LineNode>): string {
  switch (node.kind) {
    case 'blank':
      return '';
    case 'setting':
      return `${node.key.text}: ${node.value.text}`.trimEnd();
    case 'passage':
      return `passage: ${node.name.text}`.trimEnd();
    case 'instruction':
      return `> ${node.text.text}`.trimEnd();
    case 'motif':
      return `motif ${node.name.text === '' ? '' : `${node.name.text} `}= ${printItems(node.items)}`.trimEnd();
    case 'music':
      return printItems(node.items);
  }
}

export function printItems(items: readonly Placeless<Item>[]): string {
  return items.map(printItem).join(' ');
}

export function printItem(item: Placeless<Item>): string {
  switch (item.kind) {
    case 'duration':
      return printDuration(item);
    case 'dynamic':
      return item.level;
    case 'direction':
    case 'jump':
      return item.word;
    case 'ending':
      return `ending ${item.times.join(', ')}`;
    case 'bar':
      return item.style;
    case 'rest':
      return item.unreadable ?? `${printMarks(item.marks)}${printRest(item.bars)}`;
    case 'stroke':
      return `${item.stroke}(${printItems(item.items)})${item.hints ? printHints(item.hints.hints) : ''}`;
    case 'group':
      return `${item.mark?.word ?? ''}(${printItems(item.items)})${item.hints ? printHints(item.hints.hints) : ''}`;
    case 'event':
      return `${printMarks(item.marks)}${item.slide ? 'slide ' : ''}${item.notes.map(printNote).join('+')}`;
    case 'motif':
      return [item.name.text, ...item.changes.map(printChange)].join(' ');
  }
}

/** `rest`, or `rest 4 bars`. */
export function printRest(bars: number | undefined): string {
  if (bars === undefined) return 'rest';
  return bars === 1 ? 'rest 1 bar' : `rest ${bars} bars`;
}

/** The words before a note, each with a space behind it. */
export function printMarks(marks: readonly { readonly word: string }[] = []): string {
  return marks.map(({ word }) => `${word} `).join('');
}

/** `1/8`; a dotted duration as its plain fraction. */
export function printDuration(duration: { readonly numerator: number; readonly denominator: number }): string {
  return `${duration.numerator}/${duration.denominator}`;
}

/** A note with its marks: `E5<>A5 = E7_ [II 1-4]`. */
export function printNote(note: Placeless<NoteNode>): string {
  const expected = note.expected ? ` = ${printPitch(note.expected.pitch)}` : '';
  const hints = note.hints ? ` ${printHints(note.hints.hints)}` : '';
  return `${printForm(note.form)}${expected}${note.tie ? '_' : ''}${hints}`;
}

export function printForm(form: Placeless<NoteForm>): string {
  switch (form.kind) {
    case 'plain':
      return `${printPitch(form.pitch)}${form.circle ? 'o' : ''}`;
    case 'artificial':
      return `${printPitch(form.stop)}<>${printPitch(form.touch)}`;
    case 'diamond':
      return `<>${printPitch(form.touch)}`;
  }
}

/** `F#6`, `Bb3`. */
export function printPitch(pitch: Placeless<PitchNode>): string {
  return `${printKeyName(pitch)}${pitch.octave}`;
}

/** `F#`, `Bb`. */
export function printKeyName(key: Placeless<KeyName>): string {
  return `${key.letter}${ACCIDENTALS[key.alter] ?? ''}`;
}

/** `[II 1-4]`, brackets included. */
export function printHints(hints: readonly Placeless<Hint>[]): string {
  return `[${hints.map(printHint).join(' ')}]`;
}

export function printHint(hint: Placeless<Hint>): string {
  switch (hint.kind) {
    case 'string':
      return STRING_NAMES[hint.string - 1] as string;
    case 'finger':
      return `${hint.finger}`;
    case 'fingers':
      return `${hint.stop}-${hint.touch}`;
    case 'manner':
      return hint.manner;
    case 'interval':
      return hint.interval;
    case 'node':
      return `at ${hint.k}/${hint.n}`;
    case 'position':
      return ordinal(hint.position);
    case 'breaking':
      return hint.breaking;
  }
}

export function printChange(change: Placeless<MotifChange>): string {
  switch (change.kind) {
    case 'interval':
      return `${change.direction} ${change.interval.text}`;
    case 'on':
      return `on ${printPitch(change.pitch)}`;
    case 'diatonic':
      return `in ${printKeyName(change.tonic)} ${change.mode} ${change.direction} ${change.steps}`;
    case 'backwards':
      return 'backwards';
  }
}
