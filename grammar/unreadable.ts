import type { IToken, TokenType } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { DIRECTIONS, DYNAMICS, JUMPS, MARKS as NOTE_MARKS } from './marks';
import { nearest } from './nearest';
import { spanOf } from './pitch-words';
import { oneOf, problem, quoted, type Replacement, type Report, type SyntaxCode, write } from './problems';
import { Diamond, Dynamic, Fraction, Pitch, Plus, Tie, tokenize } from './tokens';

/** Dynamics of the trade that the language does not have, and the nearest it has. */
const OTHER_DYNAMICS: ReadonlyMap<string, string> = new Map([
  ['pppp', 'ppp'],
  ['ppppp', 'ppp'],
  ['ffff', 'fff'],
  ['fffff', 'fff'],
  ['pf', 'mf'],
]);
const KEYWORDS = ['rest', 'slide', 'slur', 'up', 'down', ...[...NOTE_MARKS, ...DIRECTIONS, ...JUMPS].map(({ word }) => word)];
const LIKELY_DURATIONS = [1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 64];

/** Ways in which words go wrong under the fingers: what to look for and what was meant. */
const SLIPS: readonly (readonly [RegExp, string])[] = [
  [/[◊◇♢⋄]/g, '<>'],
  [/[º˚∘⁰]/g, '°'],
  [/([A-G](?:#{1,2}|b{1,2})?[0-9])[O0]$/, '$1o'],
  [/([0-9][o°])[o°O0]+$/, '$1'],
  [/♮/g, ''],
  [/([A-G](?:#{1,2}|b{1,2})?[0-9]o?)(?=[A-G])/g, '$1 '],
  [/^([0-9]+\/[0-9]+\.?)(?=[A-G])/, '$1 '],
  [/[,;.!?'"´\x60*]+$/, ''],
  [/^[,;.!?'"´\x60*]+/, ''],
  [/([0-9o°])[-–—.](?=[A-G])/g, '$1 '],
  [/[/&]/g, '+'],
  [/[-–—~]+$/, '_'],
];
/** Longer words hold more than one slip. */
const LONGEST = 60;

/** Reports a word that is nothing of the language. True if it stands in the place of a note, whose time it then keeps. */
export function reportUnreadable(token: IToken, report: Report): boolean {
  const { image } = token;
  const place = spanOf(token);
  if (/^[0-9]+$/.test(image)) {
    const fixes = LIKELY_DURATIONS.includes(Number(image)) ? [write(`1/${image}`)] : [];
    const why = t(
      '{written} is a number by itself. A duration is a fraction of a whole note, such as 1/4; a finger goes in brackets after its note, such as [1].',
      { written: quoted(image) },
    );
    report(problem('duration-number', place, why, fixes));
    return false;
  }
  const fixes = fixesOf(image);
  report(
    problem(
      'unreadable',
      place,
      t(
        "{written} can't be read here: it is neither a note nor a word of the language. Write notes as D6, F#5o or E5<>A5, durations as 1/8, and a space between them.",
        {
          written: quoted(image),
        },
      ),
      fixes,
    ),
  );
  return /[\p{L}\p{N}]/u.test(image);
}

/** Reports a word that is a dynamic elsewhere. False if it is none. */
export function reportDynamic(token: IToken, report: Report): boolean {
  const near = OTHER_DYNAMICS.get(token.image);
  if (near === undefined) return false;
  const why = t('{written} is not a dynamic here. The dynamics are {dynamics}. Write the nearest one.', {
    written: quoted(token.image),
    dynamics: oneOf(DYNAMICS),
  });
  report(problem('unknown-dynamic', spanOf(token), why, [write(near)]));
  return true;
}

export function isOtherDynamic(word: string): boolean {
  return OTHER_DYNAMICS.has(word);
}

/** Replacements that would be read, best first. */
function fixesOf(image: string): Replacement[] {
  if (image.length > LONGEST) return [];
  let word = image;
  for (const [pattern, meant] of SLIPS) {
    word = word.replace(pattern, meant);
    if (word !== image && isMusic(word)) return [write(word)];
  }
  return nearest(image, KEYWORDS, 1).map(write);
}

const NOTES: readonly TokenType[] = [Pitch, Fraction, Dynamic];
const MARKS: readonly TokenType[] = [Diamond, Plus, Tie];

/** Does `text` read as notes and marks only, the last of them complete? */
function isMusic(text: string): boolean {
  const types = tokenize(text).map(({ tokenType }) => tokenType);
  const last = types[types.length - 1];
  return (
    last !== undefined &&
    (NOTES.includes(last) || last === Tie) &&
    types.some((type) => NOTES.includes(type)) &&
    types.every((type) => NOTES.includes(type) || MARKS.includes(type))
  );
}

const BARS: Readonly<Record<string, readonly string[]>> = {
  '|||': ['||'],
  ':||': [':|'],
  '||:': ['|:'],
  ':|:': [':| |:'],
  ':||:': [':| |:'],
};

/** The bar line that an unknown one stands for, and how to write it. */
export function reportBar(token: IToken, report: Report): '||' | '|:' | ':|' {
  const { image } = token;
  const code: SyntaxCode = 'unknown-bar';
  const fixes = (BARS[image] ?? (image.startsWith(':') ? [':|'] : ['||'])).map(write);
  report(
    problem(
      code,
      spanOf(token),
      t('{written} is not a bar line. Bar lines are | and ||, repeats |: and :|.', { written: quoted(image) }),
      fixes,
    ),
  );
  if (image.startsWith(':')) return ':|';
  return image.endsWith(':') ? '|:' : '||';
}
