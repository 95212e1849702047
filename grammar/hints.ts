import type { IToken } from 'chevrotain';
import { later, t } from '../server/l10n/translate';
import { MANNERS, ordinal, STRING_NAMES, TOUCH_INTERVALS } from './hint-names';
import type { Breaking } from './marks';
import { BREAKINGS } from './marks';
import { nearest } from './nearest';
import { spanOf } from './pitch-words';
import { problem, quoted, type Replacement, type Report, removal, write } from './problems';
import { SLASH, tokenize } from './tokens';
import type { Finger, Hint, HintList, Manner, Span, StringNumber, TouchInterval } from './tree';

const STRINGS: ReadonlyMap<string, StringNumber> = new Map(
  STRING_NAMES.map((name, index) => [name, (index + 1) as StringNumber]),
);
const FINGERS: ReadonlyMap<string, Finger> = new Map<string, Finger>([
  ['0', 0],
  ['1', 1],
  ['2', 2],
  ['3', 3],
  ['4', 4],
  ['T', 'T'],
]);

/** Words of the trade that say the same as a hint. */
const MEANT: ReadonlyMap<string, string> = new Map([
  ['P4', 'fourth'],
  ['P5', 'fifth'],
  ['P8', 'octave'],
  ['M3', 'third'],
  ['m3', 'minor-third'],
  ['M6', 'sixth'],
  ['major-third', 'third'],
  ['thumb', 'T'],
  ['t', 'T'],
  ['harmonic', 'natural'],
  ['V', 'IV'],
  ['IIII', 'IV'],
  ['first', '1st'],
  ['second', '2nd'],
]);
const WORDS = [...MANNERS, ...TOUCH_INTERVALS, ...BREAKINGS, ...MEANT.keys()];
const ADVICE = later(
  'A hint is a string (I to IV), a finger (0 to 4, T), two fingers (1-4), open, stopped, natural, artificial, an interval (fourth, fifth …), a point (at 1/3), a position (3rd) or, of a chord, how the bow breaks it (1+2, 2+1, 2+2, together).',
);

/** Reads the brackets of one note. Unreadable hints are reported and left out. */
export function readHints(
  open: IToken,
  inside: readonly IToken[],
  close: IToken | undefined,
  line: string,
  report: Report,
): HintList {
  const last = close ?? inside[inside.length - 1] ?? open;
  const place = { start: open.startOffset, end: spanOf(last).end };
  if (!close) {
    const why = t('The bracket around these hints is not closed. Add ] after the last hint.');
    const closed = { title: t('Close the bracket here'), text: `${line.slice(place.start, place.end)}]` };
    report(problem('bracket-missing', place, why, [inside.length > 0 ? closed : removal(t('Remove the bracket'))]));
  } else if (inside.length === 0) {
    report(
      problem(
        'hints-empty',
        place,
        t('These brackets are empty. {advice} Write one, or remove the brackets.', { advice: t(ADVICE) }),
        [removal(t('Remove the brackets'))],
      ),
    );
  }
  return { ...place, hints: readAll(inside, report) };
}

function readAll(tokens: readonly IToken[], report: Report): Hint[] {
  const hints: Hint[] = [];
  for (let i = 0; i < tokens.length; i++) {
    const token = tokens[i] as IToken;
    if (token.image === 'at') {
      const [hint, used] = readNode(token, tokens[i + 1], report);
      i += used;
      if (hint) hints.push(hint);
    } else if (token.image === 'minor' && tokens[i + 1]?.image === 'third') {
      const place = { start: token.startOffset, end: spanOf(tokens[++i] as IToken).end };
      report(problem('unknown-hint', place, t('As a hint, the minor third is one word: minor-third.'), [write('minor-third')]));
    } else {
      const hint = readHint(token.image, spanOf(token));
      if (hint) hints.push(hint);
      else reportUnknown(token, report);
    }
  }
  return withoutRepeats(hints, report);
}

/** What the one well-written hint of this text is about; undefined for anything else. */
export function hintKind(text: string): Hint['kind'] | undefined {
  const problems: unknown[] = [];
  const [hint, ...others] = readAll(tokenize(text), (found) => problems.push(found));
  return problems.length === 0 && others.length === 0 ? hint?.kind : undefined;
}

/** Which question a hint answers, a half-written one included; `previous` is the word before it. */
export function questionOf(word: string, previous?: string): Exclude<Hint['kind'], 'fingers'> | undefined {
  if (word === 'at' || previous === 'at' || /^\d+\/\d*$/.test(word)) return 'node';
  if (/^\d+[snrt]/.test(word)) return 'position';
  if (/^\d\+/.test(word)) return 'breaking';
  if (/^(?:[0-4T]|[1-4T]-[1-4]?)$/.test(word)) return 'finger';
  const begins = (words: readonly string[]) => word !== '' && words.some((known) => known.startsWith(word));
  if (begins(STRING_NAMES)) return 'string';
  if (begins(MANNERS)) return 'manner';
  if (begins(TOUCH_INTERVALS)) return 'interval';
  return begins(BREAKINGS) ? 'breaking' : undefined;
}

/** One hint that is a single word, or undefined. `place` becomes its span. */
function readHint(text: string, place: Span): Hint | undefined {
  const { start, end } = place;
  const string = STRINGS.get(text);
  if (string !== undefined) return { kind: 'string', start, end, string };
  const finger = FINGERS.get(text);
  if (finger !== undefined) return { kind: 'finger', start, end, finger };
  if (text.length === 3 && text[1] === '-') {
    const stop = FINGERS.get(text[0] as string);
    const touch = FINGERS.get(text[2] as string);
    if (stop !== undefined && touch !== undefined && stop !== 0 && touch !== 0 && touch !== stop) {
      return { kind: 'fingers', start, end, stop, touch };
    }
    return undefined;
  }
  if ((MANNERS as readonly string[]).includes(text)) return { kind: 'manner', start, end, manner: text as Manner };
  if ((TOUCH_INTERVALS as readonly string[]).includes(text)) {
    return { kind: 'interval', start, end, interval: text as TouchInterval };
  }
  if ((BREAKINGS as readonly string[]).includes(text)) return { kind: 'breaking', start, end, breaking: text as Breaking };
  const position = /^[1-9][0-9]?(?=st|nd|rd|th)/.exec(text)?.[0];
  if (position !== undefined && text === ordinal(Number(position))) {
    return { kind: 'position', start, end, position: Number(position) };
  }
  return undefined;
}

const POINT = new RegExp(`^([0-9]+)${SLASH}([0-9]+)$`);

/** `at 1/3`; returns the hint and how many tokens after `at` it took. */
function readNode(at: IToken, next: IToken | undefined, report: Report): [Hint | undefined, number] {
  const match = next && POINT.exec(next.image);
  const place = { start: at.startOffset, end: spanOf(match ? next : at).end };
  if (!match) {
    report(
      problem(
        'unknown-hint',
        place,
        t('After “at” comes the point of the string to touch, as a fraction of its length from the nut: at 1/3.'),
        [write('at 1/3')],
      ),
    );
    return [undefined, 0];
  }
  const k = Number(match[1]);
  const n = Number(match[2]);
  if (k > 0 && k < n && n <= 99) return [{ kind: 'node', ...place, k, n }, 1];
  const why = k >= n && n > 0 ? t('that point is beyond the string') : t('there is no such point on the string');
  const fixes = n > 1 && n <= 99 ? [write(`at 1/${n}`)] : [];
  report(
    problem(
      'unknown-hint',
      place,
      t('There is nothing to touch at {point}: {why}. The fraction counts from the nut and lies between 0 and 1.', {
        point: quoted(next.image),
        why,
      }),
      fixes,
    ),
  );
  return [undefined, 1];
}

function reportUnknown(token: IToken, report: Report): void {
  report(
    problem(
      'unknown-hint',
      spanOf(token),
      t('{written} is not a hint. {advice}', { written: quoted(token.image), advice: t(ADVICE) }),
      fixesOf(token.image),
    ),
  );
}

function fixesOf(text: string): Replacement[] {
  if (text === ',' || text === ';') return [removal(t('Remove the separator; a space is enough'))];
  if (STRINGS.has(text.toUpperCase())) return [write(text.toUpperCase())];
  if (POINT.test(text)) return [write(`at ${text}`)];
  const number = /^([1-9][0-9]?)(?:st|nd|rd|th)$/.exec(text)?.[1];
  if (number !== undefined) return [write(ordinal(Number(number)))];
  const pair = /^([1-4Tt])[-–—/,.]?([1-4])$/.exec(text);
  if (pair && pair[1] !== pair[2]) return [write(`${(pair[1] as string).toUpperCase()}-${pair[2]}`)];
  const meant = MEANT.get(text);
  if (meant !== undefined) return [write(meant)];
  const words = nearest(text, WORDS).map((word) => MEANT.get(word) ?? word);
  const strings = /^[IVXivx|l1]+$/.test(text) ? nearest(text, STRING_NAMES) : [];
  return [...new Set([...strings, ...words])].map(write);
}

/** Two hints of one kind ask for two answers to one question; the first counts. */
function withoutRepeats(hints: readonly Hint[], report: Report): Hint[] {
  const seen = new Map<string, Hint>();
  return hints.filter((hint) => {
    const question = hint.kind === 'fingers' ? 'finger' : hint.kind;
    const before = seen.get(question);
    if (!before) {
      seen.set(question, hint);
      return true;
    }
    const what = t(QUESTIONS[question] ?? question);
    report(
      problem(
        'repeated-hint',
        hint,
        t('An earlier hint already gives the {what}, and a note has only one. Remove one of the two.', { what }),
        [removal(t('Remove this hint'))],
      ),
    );
    return false;
  });
}

const QUESTIONS: Readonly<Record<string, string>> = {
  string: later('string'),
  finger: later('fingering'),
  manner: later('way of playing'),
  interval: later('touched interval'),
  node: later('touched point'),
  position: 'position',
  breaking: later('breaking of the chord'),
};
