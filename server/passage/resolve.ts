import { lifted } from '../../grammar/at';
import type { Span, Tree } from '../../grammar/tree';
import { motifUsesOf } from '../../grammar/walk';
import { t } from '../l10n/translate';
import type { Context } from './context';
import { FILE_ROOM } from './flatten';
import { alignment } from './kept-ends';
import { bookProblems, MotifBook, noteProblems, onFile } from './motif';
import type { Passage, Setup } from './passage';
import type { MotifPlace, PassageProblem } from './problem';
import { type LineRecord, PassageReader, type Region } from './reader';
import { readHead, type SettingNotes, type SettingPlace, type WrittenSetting } from './settings';
import { inForce, type Overrides, setupOf } from './setup';

/** A file with everything settled but the fingering. */
export interface Resolved {
  readonly tree: Tree;
  /** In the order of the file; a file without music and without a `passage:` line has none. */
  readonly passages: readonly Passage[];
  /** In the order of the file. */
  readonly problems: readonly PassageProblem[];
  readonly settings: readonly WrittenSetting[];
  readonly motifs: MotifBook;
  /** The file's own title, empty where it has none. */
  readonly title: string;
}

/** What a resolution keeps for the next one. */
interface Memory {
  readonly records: readonly (LineRecord | undefined)[];
  readonly overrides: string;
}

const memories = new WeakMap<Resolved, Memory>();

/**
 * Settles what must sound, when and under which hints, for every passage of a file. Never throws:
 * what can't be read is reported and left out. With `previous`, an earlier result for the same file, lines that
 * did not change and whose context did not change are not read again; the result is the same as without.
 */
export function resolve(tree: Tree, previous?: Resolved, overrides: Overrides = {}): Resolved {
  const memory = previous && memories.get(previous);
  const overridesKey = overrideKey(overrides);
  const kept = previous && memory?.overrides === overridesKey ? alignment(previous.tree, tree, memory.records) : () => undefined;
  const motifs = new MotifBook(tree, previous?.motifs);
  const notes: SettingNotes = { tree, written: [], problems: [] };
  const { fileHead, regions } = divide(tree);
  const values = readHead(fileHead, {}, { scope: 'file' }, notes, overrides);
  const fileSetup = setupOf(values, overrides);

  const records: (LineRecord | undefined)[] = new Array(tree.lines.length);
  const passages: Passage[] = [];
  const problems: PassageProblem[] = [];
  const used = new Set<string>();
  let room = FILE_ROOM;
  for (const region of regions) {
    const reader = new PassageReader(
      { tree, motifs, overrides, notes, problems, kept, records, room },
      region,
      passages.length,
      values,
    );
    const read = reader.read(previous?.passages[passages.length]);
    passages.push(read.passage);
    room = read.room;
    for (const name of read.motifs) used.add(name);
  }

  for (const { uses } of motifs.motifs) for (const name of uses) used.add(name);
  const ofMotifs = motifProblems(tree, motifs, passages[0]?.setup ?? fileSetup, problems);
  records.forEach((record, line) => {
    for (const problem of record?.music.problems ?? []) {
      if (!problem.origin || !ofMotifs.has(toldKey(problem.code, problem.origin)))
        problems.push(onFile(problem, line, tree, motifs));
    }
  });
  problems.push(...notes.problems, ...bookProblems(motifs, tree, used));
  problems.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  // A hint of a group is told once, however many of its notes can't have it.
  const told = new Set<number>();
  const once = problems.filter(
    ({ code, span }) => code !== 'hint-contradiction' || (!told.has(span.start) && told.add(span.start)),
  );

  const resolved: Resolved = {
    tree,
    passages,
    problems: once,
    settings: notes.written,
    motifs,
    title: inForce(values, overrides).title ?? '',
  };
  memories.set(resolved, { records, overrides: overridesKey });
  return resolved;
}

/** Divides a file into its passages. What stands before the first `passage:` line and before any music is the file's. */
function divide({ lines }: Tree): { readonly fileHead: readonly SettingPlace[]; readonly regions: readonly Region[] } {
  const starts = lines.flatMap(({ node }, line) => (node.kind === 'passage' ? [line] : []));
  const firstNamed = starts[0] ?? lines.length;
  const musicFrom = (first: number, end: number) => {
    for (let line = first; line < end; line++) if (lines[line]?.node.kind === 'music') return line;
    return end;
  };
  const settingsIn = (first: number, end: number) =>
    lines.slice(first, end).flatMap(({ node }, index) => (node.kind === 'setting' ? [{ node, line: first + index }] : []));

  const unnamed = musicFrom(0, firstNamed);
  const regions: Region[] = [];
  if (unnamed < firstNamed) regions.push({ first: 0, end: firstNamed, title: '', head: [], music: unnamed });
  starts.forEach((first, index) => {
    const end = starts[index + 1] ?? lines.length;
    const music = musicFrom(first, end);
    const node = lines[first]?.node;
    regions.push({ first, end, title: node?.kind === 'passage' ? node.name.text : '', head: settingsIn(first, music), music });
  });
  return { fileHead: settingsIn(0, unnamed), regions };
}

/** What holds at the start of a line of music: setup, tempo, meter, duration, and the rest. Undefined for other lines. */
export function contextAt(resolved: Resolved, line: number): Context | undefined {
  return memories.get(resolved)?.records[line]?.context;
}

/** Adds what is wrong with the motifs as they are written, each with its first use; gives back what was told, and of which note. */
function motifProblems(tree: Tree, motifs: MotifBook, setup: Setup, problems: PassageProblem[]): ReadonlySet<string> {
  const told = new Set<string>();
  let uses: ReadonlyMap<string, Span> | undefined;
  for (const motif of motifs.motifs) {
    for (const { origin, ...problem } of [...motif.problems, ...noteProblems(motif, setup)]) {
      told.add(toldKey(problem.code, { motif: motif.name, span: origin?.span ?? problem.span }));
      uses ??= firstUses(tree);
      const use = uses.get(motif.name);
      problems.push({
        ...onFile(problem, motif.line, tree, motifs),
        ...(use && { related: [{ span: use, message: t('used here') }] }),
      });
    }
  }
  return told;
}

function toldKey(code: string, { motif, span }: MotifPlace): string {
  return `${code} ${motif} ${span.start}`;
}

/** Where each motif is first used in the music. */
function firstUses({ lines }: Tree): ReadonlyMap<string, Span> {
  const uses = new Map<string, Span>();
  for (const { node, start } of lines) {
    if (node.kind !== 'music') continue;
    for (const use of motifUsesOf(node.items)) if (!uses.has(use.name.text)) uses.set(use.name.text, lifted(use, start));
  }
  return uses;
}

function overrideKey(overrides: Overrides): string {
  return JSON.stringify(overrides, (_, value) => (typeof value === 'bigint' ? `${value}` : value));
}
