/** Adds up the test runs' reports and prints `N passed, N failed`; fails when anything did. */
import { readdirSync, readFileSync } from 'node:fs';

const [folder, failedStages] = process.argv.slice(2);
let passed = 0;
let failed = 0;
let skipped = 0;
for (const file of readdirSync(folder).filter((name) => name.endsWith('.json'))) {
  const report = JSON.parse(readFileSync(`${folder}/${file}`, 'utf8'));
  passed += report.numPassedTests;
  failed += report.numFailedTests;
  skipped += report.numPendingTests + report.numTodoTests;
  console.log(
    `${file.replace('.json', '')}: ${report.numPassedTests} passed, ${report.numFailedTests} failed, ${report.numPendingTests} skipped`,
  );
}
if (skipped > 0) console.log(`${skipped} skipped`);
// A stage that failed without a failing test (lint, a bench, a crash of the runner) still counts.
if (Number(failedStages) > 0 && failed === 0) failed = Number(failedStages);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 || passed === 0 ? 1 : 0;
