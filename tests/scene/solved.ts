import { parse } from '../../grammar/parse';
import { resolve } from '../../server/passage/resolve';
import type { Scene, ScenePassage } from '../../server/protocol/scene';
import { buildScene } from '../../server/scene/scene';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';

const solver = createSolver();

/** Every passage of a text, solved. */
export function solutionsOf(text: string): readonly Solution[] {
  return resolve(parse(text)).passages.map((passage) => solver.solve(passage));
}

/** The scene of a text, through every room on the way. */
export function sceneOf(text: string): Scene {
  return buildScene('file:///harbour.passage', 1, solutionsOf(text));
}

/** The first passage of a text. */
export function passageOf(text: string): ScenePassage {
  return sceneOf(text).passages[0]!;
}
