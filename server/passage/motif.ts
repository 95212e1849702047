import { lifted, liftedFix } from '../../grammar/at';
import type { MotifLine, MotifUse, Tree } from '../../grammar/tree';
import { motifUsesOf } from '../../grammar/walk';
import { t } from '../l10n/translate';
import { alike } from './alike';
import { type Expansion, FILE_ROOM, flatten, MOTIF_ROOM, type MotifLookup } from './flatten';
import { readNote } from './note';
import type { Setup } from './passage';
import { error, type LineProblem, type PassageProblem } from './problem';

/** Where a motif is defined. */
interface Definition {
  /** Index of its line. */
  readonly line: number;
  readonly node: MotifLine;
}

/** One motif of a file, written out. */
export interface Motif extends Definition {
  readonly name: string;
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
  readonly #definitions = new Map<string, Definition>();
  readonly #motifs = new Map<string, Motif>();
  /** In the order of the file; the same list as before the edit while the names are the same. */
  readonly names: readonly string[];
  /** Second definitions of a name. */
  readonly duplicates: readonly Definition[];

  constructor(tree: Tree, previous?: MotifBook) {
    const duplicates: Definition[] = [];
    tree.lines.forEach(({ node }, line) => {
      if (node.kind !== 'motif' || node.name.text === '') return;
      if (this.#definitions.has(node.name.text)) duplicates.push({ line, node });
      else this.#definitions.set(node.name.text, { line, node });
    });
    this.duplicates = duplicates;
    const names = [...this.#definitions.keys()];
    this.names = previous && alike(names, previous.names) ? previous.names : names;
    this.#expand(previous);
  }

  /** Every motif, in the order of the file. */
  get motifs(): readonly Motif[] {
    return this.names.flatMap((name) => this.#motifs.get(name) ?? []);
  }

  get(name: string): Motif | undefined {
    return this.#motifs.get(name);
  }

  has(name: string): boolean {
    return this.#definitions.has(name);
  }

  expansion(name: string): Expansion | undefined {
    return this.#motifs.get(name)?.expansion;
  }

  /** Depth first without recursion, so that each motif is written out after those it uses. */
  #expand(previous: MotifBook | undefined): void {
    const path = new Set<string>();
    const cycles = new Map<string, LineProblem[]>();
    let room = FILE_ROOM;
    for (const root of this.names) {
      const stack: { name: string; definition: Definition; uses: readonly MotifUse[]; next: number }[] = [];
      const enter = (name: string) => {
        const definition = this.#definitions.get(name);
        if (!definition || this.#motifs.has(name)) return;
        path.add(name);
        stack.push({ name, definition, uses: motifUsesOf(definition.node.items), next: 0 });
      };
      enter(root);
      for (let top = stack.at(-1); top; top = stack.at(-1)) {
        const { name, definition, uses } = top;
        const use = uses[top.next++];
        if (!use) {
          stack.pop();
          path.delete(name);
          const found = this.#written(definition, cycles.get(name), Math.min(room, MOTIF_ROOM), previous);
          this.#motifs.set(name, found);
          room -= found.expanded;
        } else if (path.has(use.name.text)) {
          const names = [...path];
          const cycle = [...names.slice(names.indexOf(use.name.text)), use.name.text];
          cycles.set(name, [...(cycles.get(name) ?? []), cycleProblem(use, cycle)]);
        } else enter(use.name.text);
      }
    }
  }

  /** A motif written out, those it uses (unless they use it) being so already. */
  #written(
    { line, node }: Definition,
    cycles: readonly LineProblem[] | undefined,
    room: number,
    previous: MotifBook | undefined,
  ): Motif {
    const name = node.name.text;
    const before = previous?.get(name);
    if (before?.node === node && before.room === room && !cycles && before.problems.length === 0) {
      const same = [...before.uses].every((use) => this.expansion(use) === previous?.expansion(use));
      if (same) return before.line === line ? before : { ...before, line };
    }
    const { atoms, total, used: uses, problems, expanded } = flatten(node.items, this, room);
    // Too long is told where it is used.
    const own = problems.filter(({ code }) => code !== 'motif-too-long');
    return { name, line, node, expansion: { atoms, total }, expanded, room, uses, problems: [...own, ...(cycles ?? [])] };
  }
}

function cycleProblem(use: MotifUse, cycle: readonly string[]): LineProblem {
  const shown = cycle.length > 8 ? [...cycle.slice(0, 6), '…', ...cycle.slice(-1)] : cycle;
  const message =
    cycle.length === 2
      ? t('The motif {name} contains itself, so it would never end. Remove this use.', { name: use.name.text })
      : t('These motifs contain one another, so they would never end: {names}. Remove this use.', { names: shown.join(' → ') });
  const { start, end } = use;
  return error('motif-cycle', use, message, [{ title: t('Remove this use'), edits: [{ span: { start, end }, text: '' }] }]);
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
  const nameSpan = ({ line, node }: Definition) => lifted(node.name, tree.lines[line]?.start ?? 0);
  const twice = book.duplicates.map((duplicate): PassageProblem => {
    const name = duplicate.node.name.text;
    const [span, free, first] = [nameSpan(duplicate), freeName(name, book), book.get(name)];
    const message = t('There is a motif called {name} already, and the first one counts. Give this one another name.', { name });
    return {
      ...error('duplicate-motif', span, message, [{ title: t('Call it {name}', { name: free }), edits: [{ span, text: free }] }]),
      ...(first && { related: [{ span: nameSpan(first), message: t('the motif that counts') }] }),
    };
  });
  const unused = book.motifs
    .filter(({ name }) => !used.has(name))
    .map((motif): PassageProblem => {
      const message = t('The motif {name} is never used.', { name: motif.name });
      return { ...error('unused-motif', nameSpan(motif), message), severity: 'hint' };
    });
  return [...twice, ...unused];
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
