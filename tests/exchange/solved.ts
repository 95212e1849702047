import type { ScenePassage } from '../../server/protocol/scene';
import { scenePassage } from '../../server/scene/scene';
import { createSolver } from '../../server/solver/solve';
import { passageOf } from './passages';

const solver = createSolver();

/** The scene of a text's first passage, solved. */
export function solvedScene(text: string): ScenePassage {
  return scenePassage(solver.solve(passageOf(text)));
}
