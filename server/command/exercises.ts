import { basename } from 'node:path';
import type { PracticeKind } from '../practice/kind';
import { KINDS } from '../practice/kinds';
import { practice } from '../practice/practice';
import { CannotRun, EXIT } from './cannot-run';
import { findInputs, readInput, reportedName } from './inputs';
import { type PlayerOptions, playerFrom } from './options';
import { checkOutput, everythingRead, fileNamed, placeIn } from './output';
import { passagesNamed } from './passages-named';
import { replaceFile } from './replace-file';
import { complain, say } from './say';
import { overridesOf, study } from './study';

export interface ExercisesOptions extends PlayerOptions {
  readonly passage?: string;
  readonly kinds?: string;
  readonly out?: string;
  readonly force?: boolean;
}

/** `passagework exercises`: practice material from the passages of a file, as passage text. */
export async function runExercises(name: string, options: ExercisesOptions): Promise<number> {
  const { force } = options;
  const inputs = await findInputs([name]);
  const named = fileNamed(options.out);
  const out = named && placeIn(named, `${basename(name, '.passage')}-exercises.passage`);
  if (out !== undefined) checkOutput({ path: out, force, sources: everythingRead(inputs, options.player) });
  const player = playerFrom(options);
  const kinds = kindsFrom(options.kinds);
  if (inputs.length > 1) throw new CannotRun(`There is more than one passage file in ${name}: name the one to practise.`);
  [name = name] = inputs;
  const snapshot = study(readInput(name), player, name);
  const file = reportedName(name);
  const { text, made } = practice({
    resolved: snapshot.resolved,
    solutions: passagesNamed(snapshot.solutions, options.passage),
    solver: snapshot.solver,
    kinds,
    chance: snapshot.settings.safeChance,
    overrides: overridesOf(player, name),
    ...(file !== undefined && { file: basename(file) }),
  });
  const missing = made.filter(({ count }) => count === 0).map(({ kind }) => `${kind.name} needs ${kind.needs}`);
  if (text === '') throw new CannotRun(`There is nothing to practise in this way: ${missing.join('; ')}.`);
  // A kind that nobody asked for by name is not missed.
  if (options.kinds !== undefined) for (const line of missing) complain(`left out: ${line}.`);
  if (out === undefined) {
    process.stdout.write(text);
    return EXIT.clean;
  }
  replaceFile(out, text);
  say(`Exercises: ${out} (${made.flatMap(({ kind, count }) => (count ? [`${count} ${kind.name}`] : [])).join(', ')})`);
  return EXIT.clean;
}

function kindsFrom(list: string | undefined): readonly PracticeKind[] {
  if (list === undefined) return KINDS;
  const names = list
    .split(',')
    .map((word) => word.trim())
    .filter(Boolean);
  const known = KINDS.map(({ name }) => name);
  const unknown = names.find((word) => !known.includes(word));
  if (unknown !== undefined || names.length === 0)
    throw new CannotRun(`--kinds: ${unknown ?? 'nothing'} is not one of ${known.join(', ')}.`);
  return KINDS.filter((kind) => names.includes(kind.name));
}
