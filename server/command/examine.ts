import { writeFileSync } from 'node:fs';
import type { Settings } from '../protocol/settings';
import { snapshot } from '../workspace/snapshot';
import { type Finding, findingsOf } from './finding';
import { readInput, STANDARD_INPUT } from './inputs';
import { repair } from './repair';

/** One file to check. Plain data: it may be handed to another thread. */
export interface Job {
  readonly name: string;
  readonly settings: Settings;
  readonly fix: boolean;
}

export interface Examined {
  readonly name: string;
  /** As it stands after any cures. */
  readonly text: string;
  readonly findings: readonly Finding[];
  /** Cures applied. */
  readonly applied: number;
}

/** Reads and checks one file, curing it on disk first where asked to. */
export function examine({ name, settings, fix }: Job): Examined {
  const file = fileName(name);
  const text = readInput(name);
  if (!fix || file === undefined) return { name, text, findings: findingsOf(snapshot(text, 0, settings), file), applied: 0 };
  const { snapshot: after, applied } = repair(text, settings);
  if (applied > 0) writeFileSync(name, after.tree.text);
  return { name, text: after.tree.text, findings: findingsOf(after, file), applied };
}

/** As reports name it: with `/`, and absent for standard input. */
export function fileName(name: string): string | undefined {
  return name === STANDARD_INPUT ? undefined : name.replaceAll('\\', '/');
}
