import { renderPage } from '../scene/page/page';
import { buildScene } from '../scene/scene';
import { alternatives } from '../solver/alternatives';
import type { Snapshot } from '../workspace/snapshot';

/** All passages of the given files as one self-contained HTML page. */
export function solutionPage(snapshots: readonly Snapshot[]): string {
  const passages = snapshots.flatMap(({ solutions }) =>
    solutions.map((solution) => ({
      passage: solution.passage,
      solution,
      alternatives: (event: number) => alternatives(solution, event),
    })),
  );
  return renderPage(buildScene('', 0, passages));
}
