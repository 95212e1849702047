import { STRING_NAMES } from '../../grammar/hint-names';
import type { Manner, TouchInterval } from '../../grammar/tree';
import { fault, type Reading, readValue } from '../../grammar/values/read-value';
import type { FractionNode, ValueNodes } from '../../grammar/values/value-tree';
import { attemptKey } from '../hand/attempts';
import type { StringName } from '../instrument/instrument';
import { ARTIFICIAL_NODES, HIGHEST_PARTIAL, NODES } from '../instrument/nodes';
import { t } from '../l10n/translate';

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
  const read = readValue('tried', { start: 0, end: text.length, text });
  return 'value' in read ? chooseTried(read.value) : read;
}

/** What can be tried on a string, of what is well written. */
export function chooseTried({ string: number, manner }: ValueNodes['tried']): Reading<Tried> {
  const string = STRING_NAMES[number - 1] as StringName;
  if ('above' in manner) return chooseNode(string, manner);
  const { word } = manner;
  if (word === 'stopped') return { value: { string, kind: 'stopped' } };
  return { value: { string, kind: 'artificial', interval: word, node: ARTIFICIAL_NODES[word] } };
}

function chooseNode(string: StringName, fraction: FractionNode): Reading<Tried> {
  const [k, n] = [fraction.above.value, fraction.below.value];
  const known = (k: number, n: number) => NODES.some((node) => node.k === k && node.n === n);
  if (known(k, n)) return { value: { string, kind: 'natural', node: { k, n } } };
  const same = NODES.find((node) => node.k * n === k * node.n);
  if (same) {
    const plain = `${same.k}/${same.n}`;
    return fault(
      fraction,
      t('{k}/{n} of a string is the same place as {plain}, and sounds the same; write {plain}', { k, n, plain }),
      [plain],
    );
  }
  return fault(
    fraction,
    t('no harmonic up to the eighth is touched at {k}/{n}; the lower number goes from 2 to {most}, and the upper is smaller', {
      k,
      n,
      most: HIGHEST_PARTIAL,
    }),
    known(n, k) ? [`${n}/${k}`] : [],
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
