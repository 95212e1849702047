/**
 * Passagework for programs: `import { solve } from 'passagework'`. Texts in, plain data out: nothing is read from the disk or
 * written, and no settings or project files are looked for. The same text and options give the same answer.
 */
import { formatted } from '../../grammar/format';
import { parse } from '../../grammar/parse';
import { type Reading, whyOf } from '../../grammar/values/read-value';
import type { Overrides } from '../passage/setup';
import { valueFrom } from '../passage/values';
import { CODES } from '../rules/check';
import type { Levels } from '../rules/levels';
import { DEFAULT_SETTINGS } from '../workspace/settings';
import { snapshot } from '../workspace/snapshot';
import { diagnosticOf, reportOf } from './json';
import type { CheckOptions, Diagnostic, Report, SolveOptions } from './report';

export type * from './report';

/**
 * Fingers every passage of a text.
 *
 * @returns what `passagework solve --format json` prints
 * @throws RangeError for an option that can't be read, saying why
 */
export function solve(text: string, options: SolveOptions = {}): Report {
  const made = read(text, options);
  return reportOf(made, { chance: made.settings.safeChance, best: options.best });
}

/**
 * Finds what can't be played in a text, and what is risky.
 *
 * @returns the problems in the order of the text
 * @throws RangeError for an option that can't be read, saying why
 */
export function check(text: string, options: CheckOptions = {}): readonly Diagnostic[] {
  const { tree, problems } = read(text, options);
  return problems.map((problem) => diagnosticOf(tree, problem));
}

/** The text in its usual spacing; words, comments and line breaks stay. */
export function format(text: string): string {
  return formatted(parse(text));
}

function read(
  text: string,
  { instrument = '', hand, tempo, chance = DEFAULT_SETTINGS.safeChance, rules = {}, ...rest }: SolveOptions,
) {
  if (!(chance > 0 && chance < 1)) throw new RangeError(`chance: ${chance} is not between 0 and 1`);
  const { best } = rest;
  if (best !== undefined && !(Number.isInteger(best) && best >= 1 && best <= 100))
    throw new RangeError(`best: ${best} is not a whole number from 1 to 100`);
  const unknown = Object.keys(rules).find((code) => !CODES.includes(code));
  if (unknown !== undefined) throw new RangeError(`rules: there is no check ${unknown}`);
  if (instrument !== '') readOption('instrument', valueFrom('instrument', instrument, 'violin'));
  const overrides: Overrides = {
    ...(hand !== undefined && { hand: readOption('hand', valueFrom('hand', hand, 'cello')) }),
    ...(tempo !== undefined && { tempo: readOption('tempo', valueFrom('tempo', tempo, 'violin')) }),
  };
  return snapshot(text, 0, { ...DEFAULT_SETTINGS, instrument, safeChance: chance, rules: rules as Levels }, undefined, overrides);
}

function readOption<V>(option: string, reading: Reading<V>): V {
  if ('faults' in reading) throw new RangeError(`${option}: ${whyOf(reading)}`);
  return reading.value;
}
