import axe from 'axe-core';
import type { Frame } from 'playwright-core';

/** What the rules of WCAG 2.2, levels A and AA, find wrong with a page, as axe-core tells it. */
export async function findings(frame: Frame): Promise<readonly string[]> {
  // Evaluated from outside, so the page's policy, which lets no foreign script in, stays as it is.
  await frame.evaluate(axe.source);
  const violations = await frame.evaluate(async () => {
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { axe } = window as unknown as { axe: typeof import('axe-core') };
    return (await axe.run(document, { runOnly: tags })).violations;
  });
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${help}\n${target}\n${failureSummary}`),
  );
}
