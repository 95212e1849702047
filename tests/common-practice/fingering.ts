import type { Played, PlayedNote } from './played';

/**
 * The notation of accepted fingerings. Words with spaces between, one for every note of the passage:
 *
 *     IV 0 1 2 3 III 1        a string, then the fingers on it until another is named; 0 is the open string
 *     2|3                     either finger
 *     {III 0 | IV 4}          either of two runs; a string named inside holds to the closing brace
 *     II+I 1+4 1+4            double stops: both strings, lower one first, and both fingers
 *     II 1-4                  an artificial harmonic: stopping finger, touching finger
 *     III 1o  1o@1/4  *o@3/4  a natural harmonic, with the place touched where that is the point
 *     *                       any finger, on the string named
 *     ...                     the rest of the passage as it likes
 */
export interface Pattern {
  /** True when the whole passage is played so. */
  readonly matches: (played: readonly Played[]) => boolean;
  /** Fewest and most notes that it stands for. */
  readonly notes: readonly [least: number, most: number];
}

export function readFingering(text: string): Pattern {
  const words = text.replaceAll(/[{}]/g, ' $& ').trim().split(/\s+/);
  const { node, next } = run(words, 0, undefined);
  if (next < words.length) throw new Error(`A brace too many in ${text}`);
  return {
    matches: (played) => node.ends(played, 0).includes(played.length),
    notes: [node.least, node.most],
  };
}

/** Part of a pattern: where it can end when it begins at a note. */
interface Node {
  readonly ends: (played: readonly Played[], from: number) => readonly number[];
  readonly least: number;
  readonly most: number;
}

function run(words: readonly string[], at: number, outer: string | undefined): { node: Node; next: number } {
  const nodes: Node[] = [];
  let strings = outer;
  let next = at;
  for (; next < words.length && words[next] !== '}' && words[next] !== '|'; next++) {
    const word = words[next]!;
    if (word === '{') {
      const group = choice(words, next + 1, strings);
      nodes.push(group.node);
      next = group.next;
    } else if (word === '...') nodes.push(REST);
    else if (STRINGS.test(word)) strings = word;
    else nodes.push(note(word, strings));
  }
  return { node: sequence(nodes), next };
}

const STRINGS = /^(?:IV|I{1,3})(?:\+(?:IV|I{1,3}))?$/;

function choice(words: readonly string[], at: number, strings: string | undefined): { node: Node; next: number } {
  const nodes: Node[] = [];
  for (let from = at; ; ) {
    const { node, next } = run(words, from, strings);
    nodes.push(node);
    if (words[next] === undefined) throw new Error('A brace is not closed');
    if (words[next] === '}') return { node: either(nodes), next };
    from = next + 1;
  }
}

const REST: Node = { ends: ({ length }, from) => (from <= length ? [length] : []), least: 0, most: Number.POSITIVE_INFINITY };

function sequence(nodes: readonly Node[]): Node {
  return {
    ends: (played, from) =>
      nodes.reduce<readonly number[]>(
        (starts, node) => [...new Set(starts.flatMap((start) => node.ends(played, start)))],
        [from],
      ),
    least: nodes.reduce((sum, { least }) => sum + least, 0),
    most: nodes.reduce((sum, { most }) => sum + most, 0),
  };
}

function either(nodes: readonly Node[]): Node {
  return {
    ends: (played, from) => nodes.flatMap((node) => node.ends(played, from)),
    least: Math.min(...nodes.map(({ least }) => least)),
    most: Math.max(...nodes.map(({ most }) => most)),
  };
}

function note(word: string, strings: string | undefined): Node {
  if (!strings) throw new Error(`No string is named before ${word}`);
  const on = strings.split('+');
  const choices = word.split('|').map((one) => one.split('+').map(finger));
  if (choices.some(({ length }) => length !== on.length)) throw new Error(`${word} is not for ${strings}`);
  const fits = ({ notes }: Played) =>
    notes.length === on.length &&
    choices.some((fingers) => fingers.every((is, index) => notes[index]!.string === on[index] && is(notes[index]!)));
  return { ends: (played, from) => (played[from] && fits(played[from]) ? [from + 1] : []), least: 1, most: 1 };
}

const FINGER = /^(?<finger>[0-4T*])(?:-(?<touching>[1-4*]))?(?:(?<circle>o)(?:@(?<node>\d+\/\d+))?)?$/;

function finger(word: string): (note: PlayedNote) => boolean {
  const groups = FINGER.exec(word)?.groups;
  if (!groups) throw new Error(`${word} is no fingering`);
  const same = (asked: string | undefined, got: unknown) => asked === '*' || asked === String(got);
  return (played) => {
    if (!same(groups.finger, played.finger)) return false;
    if (groups.circle) return played.kind === 'natural' && (!groups.node || groups.node === played.node);
    if (groups.touching) return played.kind === 'artificial' && same(groups.touching, played.touching);
    return played.kind === 'stopped' || played.kind === 'open';
  };
}
