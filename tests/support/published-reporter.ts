import type { Reporter, TestModule, TestSuite } from 'vitest/node';

const PUBLISHED = /^(?:published:|derived:|common practice, no source)/;

/**
 * After a run, lists by source the checks made against something outside the code under test: every `describe` whose title
 * starts with `published:` (a source we can name), `derived:` (exact arithmetic) or `common practice, no source` (a fact of the trade).
 */
export default class PublishedReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const lines = modules
      .flatMap((module) => [...module.children.allSuites()])
      .filter((suite) => PUBLISHED.test(suite.name))
      .map(line)
      .sort();
    if (lines.length > 0)
      console.log(`\nChecked against published sources, exact arithmetic and common practice:\n${lines.join('\n')}`);
  }
}

function line(suite: TestSuite): string {
  const results = [...suite.children.allTests()].map((test) => test.result().state);
  const passed = results.filter((state) => state === 'passed').length;
  return `  ${passed === results.length ? '✓' : '✗'} ${suite.name} (${passed}/${results.length})`;
}
