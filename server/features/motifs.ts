import { absolute, covers, type Path, pathAt } from '../../grammar/at';
import { readLine } from '../../grammar/line';
import { joinsSign } from '../../grammar/stray';
import type { Edit, MotifLine, MotifUse, Span, Tree, Word } from '../../grammar/tree';
import { itemsOf, motifUsesOf } from '../../grammar/walk';
import { t } from '../l10n/translate';
import type { Reading } from './reading';
import { motifText } from './written-out';

/** A motif's notes are shown in a hover up to this many characters. */
const MOST_SHOWN = 400;

/** One place where a motif's name stands. */
export interface MotifName {
  readonly name: string;
  readonly span: Span;
  readonly definition: boolean;
}

/** The motif named at a place: in its definition, or where it is used. */
export function motifAt(tree: Tree, offset: number): MotifName | undefined {
  const { line, column } = pathAt(tree, offset);
  const definition = line.node.kind === 'motif' && covers(line.node.name, column) ? line.node.name : undefined;
  if (definition?.text) return { name: definition.text, span: absolute(line, definition), definition: true };
  const use = motifUsesOf(itemsOf(line.node)).find(({ name }) => covers(name, column));
  return use && { name: use.name.text, span: absolute(line, use.name), definition: false };
}

/** Every place where a motif's name stands, in the order of the file. */
export function motifNames(tree: Tree, name: string): readonly MotifName[] {
  return tree.lines.flatMap((line) => {
    const named = (word: Word, definition: boolean): MotifName[] =>
      word.text === name ? [{ name, span: absolute(line, word), definition }] : [];
    const own = line.node.kind === 'motif' ? named(line.node.name, true) : [];
    const uses = motifUsesOf(itemsOf(line.node)).flatMap((use) => named(use.name, false));
    return [...own, ...uses];
  });
}

/** Where the motif at a place is defined. */
export function definitionOf(tree: Tree, offset: number): readonly MotifName[] {
  const motif = motifAt(tree, offset);
  return motif ? motifNames(tree, motif.name).filter(({ definition }) => definition) : [];
}

/** Every motif that the file defines, first definition first. */
export function motifsIn(tree: Tree): readonly MotifLine[] {
  return tree.lines.flatMap(({ node }) => (node.kind === 'motif' && node.name.text ? [node] : []));
}

/** The edits that give the motif at a place another name everywhere, or why that name can't be had. */
export function renameMotif(tree: Tree, offset: number, to: string): readonly Edit[] | { readonly refused: string } {
  const motif = motifAt(tree, offset);
  if (!motif) return { refused: t('There is no motif here. Put the cursor on the name of one.') };
  if (!isName(to)) {
    return {
      refused: t(
        '“{to}” cannot name a motif. Use letters, digits, - and _, begin with a letter, and take no word that means something else in a passage.',
        { to },
      ),
    };
  }
  if (to !== motif.name && motifsIn(tree).some(({ name }) => name.text === to)) {
    return { refused: t('There is already a motif called “{to}”. Choose another name.', { to }) };
  }
  return motifNames(tree, motif.name).map(({ span }) => ({ span, text: to }));
}

/** A name is what the grammar reads as one: at a definition, and where it is used. */
function isName(text: string): boolean {
  const node = readLine(`motif ${text} = D5`);
  return node.kind === 'motif' && node.name.text === text && node.problems.length === 0;
}

/** What a motif stands for where it is used, or how often it is used where it is defined; Markdown. */
export function motifAccount({ tree, resolved }: Reading, { line, index, items }: Path): string | undefined {
  const use = items.at(-1);
  if (use?.kind === 'motif') {
    const notes = motifText(resolved, index, use)?.notes;
    if (!notes) return undefined;
    const shown = notes.length > MOST_SHOWN ? `${notes.slice(0, MOST_SHOWN)} …` : notes;
    return t('Motif **{name}** here: `{notes}`', { name: use.name.text, notes: shown });
  }
  if (line.node.kind !== 'motif' || !line.node.name.text) return undefined;
  const { text } = line.node.name;
  const uses = motifNames(tree, text).filter(({ definition }) => !definition).length;
  return uses === 1
    ? t('Motif **{name}**, used once.', { name: text })
    : t('Motif **{name}**, used {uses} times.', { name: text, uses });
}

/**
 * What takes the place of a motif's use to write it out. Undefined where it can't be: also where a sign that can't be read there
 * stands next to the use, for it would join the first or last note.
 */
export function motifWrittenOut({ tree, resolved }: Reading, index: number, use: MotifUse): Edit | undefined {
  const line = tree.lines[index];
  const text = motifText(resolved, index, use)?.text;
  if (!line || text === undefined) return undefined;
  const span = absolute(line, use);
  return joinsSign(tree.text.slice(line.start, line.end), use) ? undefined : { span, text };
}
