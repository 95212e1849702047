import { lifted, liftedFix } from '../../grammar/at';
import type { MotifLine, MotifUse, Span, Tree } from '../../grammar/tree';
import { motifUsesOf } from '../../grammar/walk';
import { t } from '../l10n/translate';
import { type Expansion, FILE_ROOM, flatten, MOTIF_ROOM, type MotifLookup } from './flatten';
import { readNote } from './note';
import type { Setup } from './passage';
import type { LineProblem, PassageProblem } from './problem';

/** One motif of a file, written out. */
export interface Motif {
  readonly name: string;
  /** Index of its line. */
  readonly line: number;
  readonly node: MotifLine;
  readonly expansion: Expansion;
  /** How many of its notes came out of other motifs, and how many could have. */
  readonly expanded: number;
  readonly room: number;
  /** Names used in its own notes. */
  readonly uses: ReadonlySet<string>;
  readonly problems: readonly LineProblem[];
}

/**
 * All motifs of a file. A motif holds for the whole file, before and after its line; of two with one
 * name the first holds. An expansion keeps its identity as long as its notes, and those of the motifs
 * within, stay the same.
 */
export class MotifBook implements MotifLookup {
  readonly #motifs = new Map<string, Motif>();
  /** In the order of the file; the same list as before the edit while the names are the same. */
  readonly names: readonly string[];
  /** Second definitions of a name. */
  readonly duplicates: readonly { readonly line: number; readonly node: MotifLine }[];

  constructor(tree: Tree, previous?: MotifBook) {
    const nodes = new Map<string, { line: number; node: MotifLine }>();
    const duplicates: { line: number; node: MotifLine }[] = [];
    tree.lines.forEach(({ node }, line) => {
      if (node.kind !== 'motif' || node.name.text === '') return;
      if (nodes.has(node.name.text)) duplicates.push({ line, node });
      else nodes.set(node.name.text, { line, node });
    });
    this.duplicates = duplicates;
    const names = [...nodes.keys()];
    const before = previous?.names;
    this.names = before?.length === names.length && names.every((name, index) => name === before[index]) ? before : names;
    this.#expand(nodes, previous);
  }

  /** Every motif, in the order of the file. */
  get motifs(): Iterable<Motif> {
    return this.#motifs.values();
  }

  get(name: string): Motif | undefined {
    return this.#motifs.get(name);
  }

  has(name: string): boolean {
    return this.#motifs.has(name);
  }

  expansion(name: string): Expansion | undefined {
    return this.#motifs.get(name)?.expansion;
  }

  /** Depth first without recursion, so that each motif is written out after those it uses. */
  #expand(nodes: ReadonlyMap<string, { line: number; node: MotifLine }>, previous: MotifBook | undefined): void {
    const done = new Map<string, Motif>();
    const path = new Map<string, readonly MotifUse[]>();
    const cycles = new Map<string, LineProblem[]>();
    let room = FILE_ROOM;
    for (const root of nodes.keys()) {
      const stack: { name: string; uses: readonly MotifUse[]; next: number }[] = [];
      const enter = (name: string) => {
        const definition = nodes.get(name);
        if (!definition) return;
        const uses = motifUsesOf(definition.node.items);
        path.set(name, uses);
        stack.push({ name, uses, next: 0 });
      };
      if (!done.has(root)) enter(root);
      for (let top = stack.at(-1); top; top = stack.at(-1)) {
        const use = top.uses[top.next++];
        if (!use) {
          stack.pop();
          path.delete(top.name);
          const definition = nodes.get(top.name);
          if (!definition) continue;
          const known = { names: this.names, nodes, done, cycles: cycles.get(top.name), room: Math.min(room, MOTIF_ROOM) };
          const found = motif(top.name, definition, known, previous);
          done.set(top.name, found);
          room -= found.expanded;
        } else if (path.has(use.name.text)) {
          const names = stack.map(({ name }) => name);
          const cycle = [...names.slice(names.indexOf(use.name.text)), use.name.text];
          cycles.set(top.name, [...(cycles.get(top.name) ?? []), cycleProblem(use, cycle)]);
        } else if (!done.has(use.name.text)) {
          enter(use.name.text);
        }
      }
    }
    for (const name of nodes.keys()) {
      const found = done.get(name);
      if (found) this.#motifs.set(name, found);
    }
  }
}

/** What a motif is written out with. */
interface Known {
  readonly names: readonly string[];
  readonly nodes: ReadonlyMap<string, unknown>;
  /** The motifs it uses, unless they use it. */
  readonly done: ReadonlyMap<string, Motif>;
  readonly cycles: readonly LineProblem[] | undefined;
  readonly room: number;
}

function motif(
  name: string,
  { line, node }: { line: number; node: MotifLine },
  { names, nodes, done, cycles, room }: Known,
  previous: MotifBook | undefined,
): Motif {
  const before = previous?.get(name);
  if (before?.node === node && before.room === room && !cycles && before.problems.length === 0) {
    const same = [...before.uses].every((use) => done.get(use)?.expansion === previous?.expansion(use));
    if (same) return before.line === line ? before : { ...before, line };
  }
  const lookup = {
    names,
    has: (other: string) => nodes.has(other),
    expansion: (other: string) => done.get(other)?.expansion,
  };
  const { atoms, total, used, problems, expanded } = flatten(node.items, lookup, room);
  return {
    name,
    line,
    node,
    expansion: { atoms, total },
    expanded,
    room,
    uses: used,
    // Too long is told where it is used.
    problems: [...problems.filter(({ code }) => code !== 'motif-too-long'), ...(cycles ?? [])],
  };
}

function cycleProblem(use: MotifUse, cycle: readonly string[]): LineProblem {
  const shown = cycle.length > 8 ? [...cycle.slice(0, 6), '…', ...cycle.slice(-1)] : cycle;
  return {
    code: 'motif-cycle',
    severity: 'error',
    span: { start: use.start, end: use.end },
    message:
      cycle.length === 2
        ? t('The motif {name} contains itself, so it would never end. Remove this use.', { name: use.name.text })
        : t('These motifs contain one another, so they would never end: {names}. Remove this use.', { names: shown.join(' → ') }),
    fixes: [{ title: t('Remove this use'), edits: [{ span: { start: use.start, end: use.end }, text: '' }] }],
  };
}

const readings = new WeakMap<Expansion, { readonly setup: Setup; readonly problems: readonly LineProblem[] }>();

/** What is wrong with the notes of a motif as it is written, read as marked notes under `setup`; `origin` says of which. */
export function noteProblems({ name, expansion }: Motif, setup: Setup): readonly LineProblem[] {
  const known = readings.get(expansion);
  if (known?.setup === setup) return known.problems;
  const problems = expansion.atoms.flatMap((atom) =>
    atom.kind === 'event' && !atom.definition
      ? atom.notes
          .flatMap((note) => readNote(note, setup, 'marked', { around: atom.around }).problems)
          .map((problem) => ({ ...problem, origin: { motif: name, span: atom.span } }))
      : [],
  );
  readings.set(expansion, { setup, problems });
  return problems;
}

/** Everything wrong with the motifs themselves: definitions twice or never used. Problems of their notes are told apart from it. */
export function bookProblems(book: MotifBook, tree: Tree, used: ReadonlySet<string>): readonly PassageProblem[] {
  const problems: PassageProblem[] = [];
  const nameSpan = (line: number, node: MotifLine): Span => lifted(node.name, tree.lines[line]?.start ?? 0);
  for (const { line, node } of book.duplicates) {
    const first = book.get(node.name.text);
    problems.push({
      code: 'duplicate-motif',
      severity: 'error',
      span: nameSpan(line, node),
      message: t('There is a motif called {name} already, and the first one counts. Give this one another name.', {
        name: node.name.text,
      }),
      fixes: [
        {
          title: t('Call it {name}', { name: freeName(node.name.text, book) }),
          edits: [{ span: nameSpan(line, node), text: freeName(node.name.text, book) }],
        },
      ],
      ...(first && { related: [{ span: nameSpan(first.line, first.node), message: t('the motif that counts') }] }),
    });
  }
  for (const { name, line, node } of book.motifs) {
    if (used.has(name)) continue;
    problems.push({
      code: 'unused-motif',
      severity: 'hint',
      span: nameSpan(line, node),
      message: t('The motif {name} is never used.', { name }),
      fixes: [],
    });
  }
  return problems;
}

/** A name is letters, then letters or digits: `wave` is followed by `wave2`. */
function freeName(name: string, book: MotifBook): string {
  let number = 2;
  while (book.has(`${name}${number}`)) number++;
  return `${name}${number}`;
}

/** The same problem with its places counted from the start of the file. */
export function onFile(problem: LineProblem, line: number, tree: Tree, motifs: MotifBook): PassageProblem {
  const start = tree.lines[line]?.start ?? 0;
  const { origin, ...own } = problem;
  const definition = origin && tree.lines[motifs.get(origin.motif)?.line ?? -1];
  return {
    ...own,
    span: lifted(problem.span, start),
    fixes: problem.fixes.map((fix) => liftedFix(fix, start)),
    ...(origin &&
      definition && { related: [{ span: lifted(origin.span, definition.start), message: t('written here, in the motif') }] }),
  };
}
