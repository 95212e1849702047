import type { Style } from '../../grammar/values/value-tree';
import type { Family as InstrumentFamily } from '../instrument/instrument';
import { CELLISTS } from './cellists';
import { fromNats, toNats } from './cost';
import { LEARNED } from './learned';
import { leaning } from './styles';
import type { TermName } from './terms';
import { VIOLISTS } from './violists';

/**
 * The habits of a player's left hand: families of choices, of which a player makes exactly one each time, whatever is chosen. What a choice costs
 * is learned from what professionals chose (see `learned.ts`); only differences within a family mean anything, so the
 * cheapest choice of each costs nothing. The words are those of a violin teacher.
 */
export interface HabitFamily {
  readonly term: TermName;
  readonly words: string;
  readonly choices: readonly string[];
}

const LENGTHS = ['short', 'middling', 'long'] as const;
const PACES = ['fast', 'quick', 'moderate', 'slow'] as const;
const HEIGHTS = ['low', '3rd-4th position', '5th-7th position', 'higher'] as const;
const TIMES = ['under 0.13 s', 'under 0.25 s', 'under 0.5 s', 'under 1 s', 'longer'] as const;
const COUNTS = ['none', '1', '2-3', '4-7', '8'] as const;
const RUNS = ['open', 'none', '1', '2', '3-4', '5-7', '8'] as const;
const LYING = [
  'open',
  'all under the hand',
  'all, the first finger on the lowest',
  'some below the string',
  'some below the hand',
  'some above the hand',
  'some below and some above',
] as const;
const INTERVALS = ['otherwise', 'unison', 'semitone', 'tone', 'minor third', 'major third', 'more'] as const;
const each = (one: readonly string[], two: readonly string[]): string[] => one.flatMap((a) => two.map((b) => `${a}, ${b}`));

const BESIDE_OPEN = ['otherwise', ...each(['1', '2', '3', '4', 'T'], ['another string', 'its own string'])];

/** Every family, in the order in which costs are kept. */
export const FAMILIES = {
  position: family('position', 'the position the hand is in', [
    'half',
    '1st',
    '2nd',
    '3rd',
    '4th',
    '5th',
    '6th',
    '7th',
    '8th-9th',
    '10th and up',
  ]),
  stringHeight: family('string', 'the string, and how high on it', ['open', ...each(['I', 'II', 'III', 'IV'], HEIGHTS)]),
  finger: family('finger', 'the finger, by the length of the note', ['open', ...each(['1', '2', '3', '4', 'T'], LENGTHS)]),
  bend: family('frame', 'a finger out of the frame of the key', [
    'open',
    'in the frame',
    ...each(['1', '2', '3', '4'], ['back two', 'back', 'up', 'up two']),
  ]),
  highPosition: family('position', 'from the 4th position up, by the length of the note', ['open', 'below', ...LENGTHS]),
  doubleHeight: family('position', 'how high a double stop is taken', ['1st position', '2nd', '3rd-4th', 'higher']),
  paceHeight: family('position', 'how high on the string, by the pace of the passage', ['open', ...each(PACES, HEIGHTS)]),
  reach: family(
    'position',
    'above (or below) the lowest position that reaches the highest note around',
    each(['low passage', 'high passage'], ['-3', '-2', '-1', '0', '1', '2', '3']),
  ),
  register: family('finger', 'the finger, on the neck of a cello and past it', [
    'none',
    ...each(['1', '2', '3', '4', 'T'], ['on the neck', 'past it', 'high']),
  ]),
  highest: family('finger', 'the highest note around', ['open', '1', '2', '3', '4', 'T']),
  lowest: family('finger', 'the lowest note around', ['open', '1', '2', '3', '4', 'T']),
  openLength: family('open', 'an open string, by the length of the note', ['stopped', ...TIMES]),
  openString: family('open', 'which open string', ['stopped', 'I', 'II', 'III', 'IV']),
  openFrom: family('open', 'an open string reached by step', ['stopped', 'from above', 'from below']),
  openTo: family('open', 'an open string left by step', ['stopped', 'downwards', 'upwards']),
  fourthFrom: family('open', 'the fourth finger in place of an open string, where the note before is', [
    'otherwise',
    'above',
    'no step',
    'below',
  ]),
  fourthTo: family('open', 'the fourth finger in place of an open string, where the next note is', [
    'otherwise',
    'below',
    'no step',
    'above',
  ]),
  ahead: family('ahead', 'how many of the next notes lie under the hand', COUNTS),
  behind: family('ahead', 'how many of the notes before lie under the hand', COUNTS),
  stringAhead: family('ahead', 'how many of the next notes lie on this string under the hand', RUNS),
  stringBehind: family('ahead', 'how many of the notes before lie on this string under the hand', RUNS),
  lyingNext: family('ahead', 'where the next three notes lie, seen from this string and hand', LYING),
  lyingAround: family('ahead', 'where the four notes before and after lie, seen from this string and hand', LYING),
  lyingBeat: family('ahead', 'where the notes of the beat lie, seen from this string and hand', LYING),
  pedal: family('pedal', 'the repeated note of a bariolage', ['stopped', 'open']),
  besidePedal: family('pedal', 'the moving note of a bariolage', [
    'two strings below',
    'on the string below',
    'on its string',
    'on a string above',
    'open',
  ]),
  crossing: family('crossing', 'strings over, by the length of the note before', ['none', ...each(['1', '2', '3'], LENGTHS)]),
  crossingBeat: family('crossing', 'to the neighbouring string', ['none', 'between beats', 'on a beat', 'on the first beat']),
  crossingPace: family('crossing', 'strings over, by the pace of the passage', ['none', ...each(PACES, ['1', 'more'])]),
  recurring: family('crossing', 'to and from the note of a fast figure that comes back every second time', [
    'same string',
    'same string, its own open',
    'another string',
    'another string, an open pitch',
  ]),
  crossingSlurred: family('crossing', 'strings over within one bow stroke', ['none', 'neighbour', 'farther']),
  crossingWay: family('crossing', 'the way to another string', ['none', 'down', 'up']),
  repeat: family('repeat', 'the same pitch again', [
    ...each(['once', 'and again'], ['as before', 'another finger', 'another string']),
  ]),
  sameFinger: family('hop', 'the same finger on the same string without a shift', [
    'otherwise',
    ...each(['semitone', 'more'], ['short', 'longer']),
  ]),
  sameFingerOver: family('hop', 'the same finger on another string without a shift', [
    'otherwise',
    ...each(['fifth', 'other interval'], ['short', 'longer']),
  ]),
  fingersOver: family('hop', 'fingers on neighbouring strings, steps from the one on the lower string', [
    'otherwise',
    ...each(['-3', '-2', '-1', '0', '1', '2', '3'], ['other', 'fifth', 'octave', 'step']),
  ]),
  fingersFar: family('hop', 'fingers on strings farther apart', ['otherwise', 'same', 'next', 'two apart', 'three apart']),
  toOpen: family('open', 'to an open string', BESIDE_OPEN),
  fromOpen: family('open', 'from an open string', BESIDE_OPEN),
  shiftTime: family('shift', 'a shift, by the time there is', ['none', ...TIMES]),
  shiftRest: family('shift', 'a shift in a silence', ['no', 'short', 'long']),
  shiftFar: family('shift', 'how many positions, and which way', [
    'none',
    ...each(['1', '2', '3-4', '5 and more'], ['down', 'up']),
  ]),
  shiftBeat: family('shift', 'where the note after the shift falls', [
    'no shift',
    'between beats',
    'on a beat',
    'on the first beat',
  ]),
  shiftFingers: family('shift', 'fingers before and after a shift', [
    'no shift',
    ...each(['same', 'to a lower', 'to a higher'], ['down', 'up']),
  ]),
  shiftTo: family('shift', 'the finger that arrives', ['no shift', ...each(['1', '2', '3', '4', 'T'], ['down', 'up'])]),
  shiftSame: family('shift', 'one finger sliding along its string', INTERVALS),
  shiftOther: family('shift', 'another finger on the same string', INTERVALS),
  shiftOver: family('shift', 'a shift to another string', [
    'otherwise',
    ...each(['neighbour', 'farther'], ['against the shift', 'with the shift']),
    'within an octave',
  ]),
  shiftMelody: family('shift', 'where the melody goes after a shift', [
    'no shift',
    ...each(['down', 'up'], ['not on', 'on', 'far on']),
  ]),
  shiftBack: family('shift', 'a shift to or from a note that returns', ['otherwise', 'returns', 'will return', 'both']),
  openShift: family('shift', 'a shift during an open string, by its length', ['none', ...LENGTHS]),
  openShiftFar: family('shift', 'positions shifted during an open string', ['none', '1', '2', '3-4', '5 and more']),
  openShiftTo: family('shift', 'the finger that arrives after an open string', ['none', '1', '2', '3', '4', 'T']),
} as const satisfies Readonly<Record<string, HabitFamily>>;

function family(term: TermName, words: string, choices: readonly string[]): HabitFamily {
  return { term, words, choices };
}

export type FamilyName = keyof typeof FAMILIES;

export const FAMILY_NAMES = Object.keys(FAMILIES) as readonly FamilyName[];

/** Index of the first choice of every family in the list of all choices. */
export const FIRST = Object.fromEntries(
  FAMILY_NAMES.map((name, i) => [name, FAMILY_NAMES.slice(0, i).reduce((sum, one) => sum + FAMILIES[one].choices.length, 0)]),
) as Readonly<Record<FamilyName, number>>;

/** Every choice there is, as `family: choice`. */
export const HABITS: readonly string[] = FAMILY_NAMES.flatMap((name) => FAMILIES[name].choices.map((one) => `${name}: ${one}`));

/** The term that each choice counts towards. */
export const HABIT_TERM: readonly TermName[] = FAMILY_NAMES.flatMap((name) =>
  FAMILIES[name].choices.map(() => FAMILIES[name].term),
);

/** Who plays, as far as habits differ by it. */
export interface Leaning {
  readonly instrument: { readonly family: InstrumentFamily };
  readonly style?: Style;
}

/** What every choice costs on an instrument in a style, in the solver's whole numbers. */
export function habitCosts({ instrument: { family }, style }: Leaning): Int32Array {
  const styles = costs[family];
  let known = styles.get(style);
  if (!known) {
    known = Int32Array.from(HABITS, (name) => fromNats(costOf(name, family) + leaning(style, name)));
    styles.set(style, known);
  }
  return known;
}

function costOf(name: string, instrument: InstrumentFamily): number {
  if (instrument === 'cello') return CELLISTS[name] ?? 0;
  return (LEARNED[name]?.[0] ?? 0) + (instrument === 'viola' ? (VIOLISTS[name] ?? 0) : 0);
}

/** Weighs the choices of no style anew, nats: for those who fit them. Solvers made before keep what they have worked out. */
export function setHabitCosts(instrument: InstrumentFamily, nats: Float64Array): void {
  costs[instrument].set(undefined, Int32Array.from(nats, fromNats));
}

/** By family and style. */
const costs: Readonly<Record<InstrumentFamily, Map<Style | undefined, Int32Array>>> = {
  violin: new Map(),
  viola: new Map(),
  cello: new Map(),
};

/** Choices that say that nothing out of the ordinary is done. */
const ORDINARY: ReadonlySet<string> = new Set(['none', 'otherwise', 'no', 'no shift', 'stopped', 'below', 'in the frame']);

/** The terms of a note less what every note costs that does nothing out of the ordinary: no shift, no other string, no open one. Nats. */
export function outOfTheOrdinary(
  terms: Readonly<Partial<Record<TermName, number>>>,
  who: Leaning,
): readonly (readonly [TermName, number])[] {
  const left = new Map(Object.entries(terms) as [TermName, number][]);
  const all = habitCosts(who);
  for (const name of FAMILY_NAMES) {
    const { term, choices } = FAMILIES[name];
    const ordinary = choices.findIndex((choice) => ORDINARY.has(choice));
    if (ordinary >= 0) left.set(term, (left.get(term) ?? 0) - toNats(all[FIRST[name] + ordinary]!));
  }
  return [...left].filter(([, nats]) => nats > LEAST_TOLD).sort(([, a], [, b]) => b - a);
}

/** Less than this, nats, is not told. */
const LEAST_TOLD = 0.005;
