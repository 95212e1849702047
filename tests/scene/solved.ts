import { parse } from '../../grammar/parse';
import { resolve } from '../../server/passage/resolve';
import type { Scene, ScenePassage } from '../../server/protocol/scene';
import { buildScene } from '../../server/scene/scene';
import { alternatives } from '../../server/solver/alternatives';
import { createSolver } from '../../server/solver/solve';

const solver = createSolver();

/** The scene of a text, through every room on the way. */
export function sceneOf(text: string): Scene {
  const passages = resolve(parse(text)).passages.map((passage) => {
    const solution = solver.solve(passage);
    return { passage, solution, alternatives: (event: number) => alternatives(solution, event) };
  });
  return buildScene('file:///harbour.passage', 1, passages);
}

/** The first passage of a text. */
export function passageOf(text: string): ScenePassage {
  return sceneOf(text).passages[0]!;
}
