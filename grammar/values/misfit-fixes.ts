import type { IToken, TokenType } from 'chevrotain';
import { t } from '../../server/l10n/translate';
import { reportLikePitch } from '../like-pitch';
import { nearest } from '../nearest';
import { spanOf } from '../pitch-words';
import { LikePitch, tokenize } from '../tokens';
import type { Edit, Fix, Word } from '../tree';
import { expectedAfter } from './expected';
import { type ParsedKind, valueParser } from './value-parser';
import { KeyName, Pitch, spaceBetween, valueTokens, WRITTEN } from './value-tokens';

const MOST = 3;

/** What could stand at the first token that does not fit, or be added there: what makes the value readable, else what brings the reading further. */
export function misfitFixes(kind: ParsedKind, value: Word, tokens: readonly IToken[], at: number): readonly Fix[] {
  const token = tokens[at];
  const before = tokens.slice(0, at);
  const expected = expectedAfter(kind, before);
  const rewritings = rewritten(kind, value);
  const replacements = token ? replaced(token, expected) : [];
  const fixes = token
    ? [...inserted(before, token, expected), ...replacements, removed(tokens, at), ...rewritings]
    : [...appended(before, expected), ...rewritings];
  const reading = fixes.map((fix) => ({ fix, reached: reached(kind, value, fix.edits[0] as Edit) }));
  const whole = reading.filter((one) => one.reached === READ);
  const others = new Set([...replacements, ...rewritings]);
  const further = token ? reading.filter((one) => one.reached > at && others.has(one.fix)) : [];
  return (whole.length > 0 ? whole : further).slice(0, MOST).map(({ fix }) => fix);
}

const READ = Number.POSITIVE_INFINITY;

/** How many tokens fit once the edit is made. */
function reached(kind: ParsedKind, value: Word, { span, text }: Edit): number {
  const changed = value.text.slice(0, span.start - value.start) + text + value.text.slice(span.end - value.start);
  const read = valueParser().read(kind, valueTokens(changed));
  return 'node' in read ? READ : read.misfit;
}

/** A sign that was left out before the token. */
function inserted(before: readonly IToken[], token: IToken, expected: readonly TokenType[]): Fix[] {
  return expected.flatMap((type) => {
    const [written, ...others] = WRITTEN.get(type) ?? [];
    if (written === undefined || others.length > 0 || type === KeyName) return [];
    const start = before.length > 0 ? spanOf(before[before.length - 1] as IToken).end : token.startOffset;
    const edit = { span: { start, end: token.startOffset }, text: spaced(before, written, token) };
    return [{ title: t('Add {written}', { written }), edits: [edit] }];
  });
}

function spaced(before: readonly IToken[], written: string, next: IToken): string {
  const [sign] = valueTokens(written) as [IToken];
  return spaceBetween(before[before.length - 1], sign) + written + spaceBetween({ ...sign, startOffset: -9 }, next);
}

/** The words that the token may have meant: near in spelling, then begun alike, then the others. */
function replaced(token: IToken, expected: readonly TokenType[]): Fix[] {
  const words = expected.flatMap((type) => (type === KeyName ? [] : (WRITTEN.get(type) ?? []).filter(isWord)));
  const begun = words.filter((word) => word.startsWith(token.image.slice(0, 1).toLowerCase()));
  const pitches = expected.includes(Pitch)
    ? pitchesLike(token.image)
    : expected.includes(KeyName)
      ? keyNamesLike(token.image)
      : [];
  const meant = [...pitches, ...nearest(token.image, words), ...begun, ...words];
  return [...new Set(meant)].map((text) => ({ title: t('Write {text}', { text }), edits: [{ span: spanOf(token), text }] }));
}

function isWord(written: string): boolean {
  return /^[a-z]/i.test(written);
}

function pitchesLike(image: string): string[] {
  const [word, ...others] = tokenize(image);
  const meant: string[] = [];
  if (word?.tokenType === LikePitch && others.length === 0) {
    reportLikePitch(word, undefined, ({ fixes }) => meant.push(...fixes.flatMap(({ edits }) => edits.map(({ text }) => text))));
  }
  return meant;
}

/** `Fis` is read as a pitch that lacks its octave. */
function keyNamesLike(image: string): string[] {
  return pitchesLike(`${image}4`).map((pitch) => pitch.slice(0, -1));
}

function removed(tokens: readonly IToken[], at: number): Fix {
  const token = tokens[at] as IToken;
  const { end } = spanOf(token);
  const before = tokens[at - 1];
  const start = before ? spanOf(before).end : token.startOffset;
  return { title: t('Remove “{written}”', { written: token.image.slice(0, 40) }), edits: [{ span: { start, end }, text: '' }] };
}

function appended(before: readonly IToken[], expected: readonly TokenType[]): Fix[] {
  const last = before[before.length - 1];
  if (!last) return [];
  const { end } = spanOf(last);
  return expected.flatMap((type) =>
    (WRITTEN.get(type) ?? []).map((written) => {
      const [token] = valueTokens(written) as [IToken];
      const text = spaceBetween(last, { ...token, startOffset: end + 1 }) + written;
      return { title: t('Add {written}', { written }), edits: [{ span: { start: end, end }, text }] };
    }),
  );
}

/** Where numbers alone say what was meant. */
const REWRITTEN: Readonly<Partial<Record<ParsedKind, (numbers: readonly string[], text: string) => string>>> = {
  instrument: (_, text) => text.replace(/^(.*\S)\s+(violin|viola|cello)\s*$/i, '$2 $1'),
  tempo: tempoMeant,
  meter: ([count = '4', unit = '4']) => `${count}/${unit}`,
  standard: (numbers) => `A4 = ${numbers.find((number) => number.length > 2) ?? 440}`,
  counts: ([clean = '0', tried = '1']) => `${clean} of ${tried}`,
};

/** Note values by their names in words, as the number that divides a whole note. */
const NAMED: Readonly<Record<string, string>> = {
  whole: '1',
  semibreve: '1',
  half: '2',
  minim: '2',
  quarter: '4',
  crotchet: '4',
  eighth: '8',
  quaver: '8',
  sixteenth: '16',
  semiquaver: '16',
};

/** `1/4 = 96` of `4 = 96`, `quarter = 96`, `1/4 96`, `96`: the beat may be a fraction, the number that divides a whole note, or a name. */
function tempoMeant(numbers: readonly string[], text: string): string {
  const name = Object.keys(NAMED).find((each) => new RegExp(`\\b${each}\\b`, 'i').test(text));
  const isFraction = /\d\s*\/\s*\d/.test(text);
  const [above, below] = isFraction ? numbers : ['1', name ? NAMED[name] : numbers.length > 1 ? numbers[0] : '4'];
  const bpm = numbers[isFraction ? 2 : name || numbers.length < 2 ? 0 : 1] ?? 96;
  return `${above}/${below}${/\d\s*\.(?!\d)/.test(text) || /\bdotted\b/i.test(text) ? '.' : ''} = ${bpm}`;
}

function rewritten(kind: ParsedKind, value: Word): Fix[] {
  const text = REWRITTEN[kind]?.(value.text.match(/\d+(?:\.\d+)?/g) ?? [], value.text);
  return text === undefined
    ? []
    : [{ title: t('Write {text}', { text }), edits: [{ span: { start: value.start, end: value.end }, text }] }];
}
