import { renderPage } from '../scene/page/page';
import { sealed } from '../scene/page/sealed';
import { buildScene } from '../scene/scene';
import type { Snapshot } from '../workspace/snapshot';

/** All passages of the given files as one self-contained HTML page. */
export function solutionPage(snapshots: readonly Snapshot[]): Promise<string> {
  const page = renderPage(
    buildScene(
      '',
      0,
      snapshots.flatMap(({ solutions }) => solutions),
    ),
  );
  return sealed(page);
}
