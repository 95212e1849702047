/**
 * Runs a TypeScript program of the tests under plain Node: `node tests/support/run.mjs tests/bench/main.ts [arguments]`.
 * It is bundled first, as what ships is, so a benchmark measures neither a test runner nor a transpiler's module glue.
 */
import { spawnSync } from 'node:child_process';
import { basename } from 'node:path';
import { build } from 'esbuild';

const [entry, ...rest] = process.argv.slice(2);
if (!entry) {
  console.error('Say which program to run: node tests/support/run.mjs tests/bench/main.ts');
  process.exit(2);
}
const outfile = `.cache/run/${basename(entry, '.ts')}-${process.pid}.mjs`;
await build({
  entryPoints: [entry],
  outfile,
  bundle: true,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  packages: 'external',
  loader: { '.md': 'text', '.svg': 'text' },
  sourcemap: 'inline',
  logLevel: 'warning',
});
const { status } = spawnSync(process.execPath, ['--enable-source-maps', '--expose-gc', outfile, ...rest], { stdio: 'inherit' });
process.exit(status ?? 1);
