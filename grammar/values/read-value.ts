import type { IToken } from 'chevrotain';
import { later, t } from '../../server/l10n/translate';
import { spanOf } from '../pitch-words';
import type { Fix, Span, Word } from '../tree';
import { misfitFixes } from './misfit-fixes';
import { type ParsedKind, valueParser } from './value-parser';
import { valueTokens } from './value-tokens';
import type { ValueKind, ValueNodes } from './value-tree';

/** What keeps a value from being read: where, and why as the end of a sentence; fixes best first. */
export interface Fault {
  readonly span: Span;
  readonly why: string;
  /** Looked for when first asked for: each is tried by the parser. */
  readonly fixes: readonly Fix[];
}

export type Reading<T> = { readonly value: T } | { readonly faults: readonly Fault[] };

/** A value that can't be had, with what could stand at that place. */
export function fault<T>(span: Span, why: string, meant: readonly string[] = []): Reading<T> {
  const place = { start: span.start, end: span.end };
  const fixes = [...new Set(meant)]
    .slice(0, 3)
    .map((text) => ({ title: t('Write {text}', { text }), edits: [{ span: place, text }] }));
  return { faults: [{ span: place, why, fixes }] };
}

/** All that is wrong, as the end of a sentence. */
export function whyOf({ faults }: { readonly faults: readonly Fault[] }): string {
  return faults.map(({ why }) => why).reduce((one, other) => t('{one}; and {other}', { one, other }));
}

/** How each kind of value is written, as the end of a sentence. */
const FORMS: Readonly<Record<ParsedKind, string>> = {
  instrument: later('an instrument is violin, viola or cello, with its size if it is not a full one'),
  tuning: later('a tuning is the word fifths or equal, or four strings lowest first, as in G3 D4 A4 E5'),
  standard: later('the pitch standard is written A4 = 440'),
  hand: later(
    'a hand is small, medium or large, child with an age, or two fingers and mm for each measured reach, as in 1-2 48, 1-4 98',
  ),
  tempo: later('a tempo is a note value and its beats a minute, as in 1/4 = 96'),
  meter: later('a meter is written as beats and note value, as in 4/4 or 6/8'),
  key: later('a key is a note name and major or minor, as in D major or F# minor'),
  temperament: later('a temperament is equal, pythagorean, or just with its keynote, as in just D'),
  level: later('a level of playing is student, advanced or professional'),
  style: later('a style of fingering is safe, singing or brilliant'),
  harmonics: later('marked, all or allowed says which notes are harmonics'),
  clef: later('a clef is treble, alto, tenor or bass; automatic takes the one with the fewest ledger lines'),
  keep: later(
    'what every note keeps to is a string (I to IV), a position (3rd), no open strings, or several of them; free ends it',
  ),
  comfort: later(
    'what is comfortable is a share of the most that the hand reaches, as in 70 %, or mm for two fingers, as in 1-4 80',
  ),
  cents: later('an amount in cents is written 12 cents'),
  millimetres: later('an amount in millimetres is written 1.5 mm'),
  tried: later('what can be tried on a string is a point of division such as 1/5, an interval such as fourth, or stopped'),
  counts: later('attempts are counted as how many came out clean, of how many, as in 4 of 10'),
  levels: later('a check is named with its level, as in lone-third off'),
};

/** Reads what stands behind a colon. */
export function readValue<K extends ValueKind>(kind: K, value: Word): Reading<ValueNodes[K]> {
  if (!isParsed(kind)) return { value: value as ValueNodes[K] };
  const parsed: ParsedKind = kind;
  const tokens = valueTokens(value.text, value.start);
  const read = valueParser().read(parsed, tokens);
  if ('node' in read) return { value: read.node as ValueNodes[K] };
  return { faults: [misfit(parsed, value, tokens, read.misfit)] };
}

export function isParsed(kind: ValueKind): kind is ParsedKind {
  return kind !== 'text' && kind !== 'path';
}

function misfit(kind: ParsedKind, value: Word, tokens: readonly IToken[], at: number): Fault {
  const token = tokens[at] ?? tokens[tokens.length - 1];
  const span = token ? spanOf(token) : { start: value.start, end: value.end };
  const form = t(FORMS[kind]);
  const why =
    at < tokens.length
      ? t('“{written}” does not belong there; {form}', { written: token?.image.slice(0, 40) ?? '', form })
      : t('something is missing at its end; {form}', { form });
  let fixes: readonly Fix[] | undefined;
  return {
    span,
    why,
    get fixes() {
      fixes ??= misfitFixes(kind, value, tokens, at);
      return fixes;
    },
  };
}
