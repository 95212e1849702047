import { STRING_NAMES } from '../../grammar/hint-names';
import { nearest } from '../../grammar/nearest';
import { quoted } from '../../grammar/problems';
import type { Manner, TouchInterval } from '../../grammar/tree';
import { attemptKey } from '../hand/attempts';
import type { StringName } from '../instrument/instrument';
import { ARTIFICIAL_NODES, HIGHEST_PARTIAL, NODES } from '../instrument/nodes';
import { misread, type Reading } from '../passage/reading';

/** What was tried: a string, and how it was made to sound. */
export interface Tried {
  readonly string: StringName;
  readonly kind: Exclude<Manner, 'open'>;
  /** Of an artificial harmonic. */
  readonly interval?: TouchInterval;
  /** Of a harmonic: the point touched, as a share of the sounding string from its nut end. */
  readonly node?: { readonly k: number; readonly n: number };
}

const INTERVALS = Object.keys(ARTIFICIAL_NODES) as readonly TouchInterval[];

/** The words that may follow the string. */
export const MANNER_WORDS: readonly string[] = ['stopped', ...INTERVALS, ...NODES.map(({ k, n }) => `${k}/${n}`)];

/** Reads `III 1/5`, `II fourth`, `I stopped`; `natural` and `artificial` may be added, as hints write them. */
export function readTried(text: string): Reading<Tried> {
  const [string = '', ...words] = text.trim().split(/\s+/);
  const known = STRING_NAMES.find((name) => name === string.toUpperCase());
  if (!known) {
    return misread(`${quoted(string)} is no string; name it I, II, III or IV, I being the highest`, []);
  }
  const suggest = (word: string) => `${known} ${word}`;
  const manner = words.filter((word) => !(words.length > 1 && (word === 'natural' || word === 'artificial'))).join('-');
  if (manner === 'stopped') return { value: { string: known, kind: 'stopped' } };
  const interval = INTERVALS.find((name) => name === manner);
  if (interval) return { value: { string: known, kind: 'artificial', interval, node: ARTIFICIAL_NODES[interval] } };
  const [, k, n] = /^(\d+)\/(\d+)$/.exec(manner) ?? [];
  if (k !== undefined && n !== undefined) return readNode(known, Number(k), Number(n));
  return misread(
    `${quoted(words.join(' '))} says nothing that can be tried on a string; write a point of division such as 1/5, an interval such as fourth, or stopped`,
    nearest(manner, MANNER_WORDS).map(suggest),
  );
}

function readNode(string: StringName, k: number, n: number): Reading<Tried> {
  if (NODES.some((node) => node.k === k && node.n === n)) return { value: { string, kind: 'natural', node: { k, n } } };
  const same = NODES.find((node) => node.k * n === k * node.n);
  if (same) {
    const plain = `${same.k}/${same.n}`;
    return misread(`${k}/${n} of a string is the same place as ${plain}, and sounds the same; write ${plain}`, [
      `${string} ${plain}`,
    ]);
  }
  return misread(
    `no harmonic up to the eighth is touched at ${k}/${n}; the lower number goes from 2 to ${HIGHEST_PARTIAL}, and the upper is smaller`,
    k > n && n > 0 ? [`${string} ${n}/${k}`].filter((suggestion) => 'value' in readTried(suggestion)) : [],
  );
}

/** `III 1/5`, `II fourth`, `I stopped`: as a player file writes it. */
export function triedWords({ string, kind, interval, node }: Tried): string {
  return `${string} ${kind === 'stopped' ? 'stopped' : (interval ?? `${node?.k}/${node?.n}`)}`;
}

/** Where its attempts stand in a hand's experience. */
export function triedKey({ string, kind, node }: Tried): string {
  return attemptKey(string, kind, node);
}
