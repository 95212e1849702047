import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { Script } from 'node:vm';
import { CodeCache } from './code-cache';

/**
 * Starts the command. Most of a start is V8 compiling what the last one compiled as well, so its machine code is kept between them.
 * (Node does so itself from 22.1 on, by `module.enableCompileCache`; we promise 20.)
 */
const PROGRAM = join(__dirname, 'command-program.cjs');

// ASCII alone, as the bundle is written: read this way it stays one byte a character.
const source = readFileSync(PROGRAM, 'latin1');
const cache = CodeCache.of(PROGRAM, process.argv[2]);
const script = new Script(`(function (exports, require, module, __filename, __dirname) {${source}\n})`, {
  filename: PROGRAM,
  ...(cache?.found && { cachedData: cache.found }),
});
if (cache && (!cache.found || script.cachedDataRejected)) {
  // At the end, when what this command needs has been compiled.
  process.on('exit', (code) => {
    if (code <= 1) cache.keep(() => script.createCachedData());
  });
}
const made = { exports: {} };
script.runInThisContext().call(made.exports, made.exports, createRequire(PROGRAM), made, PROGRAM, dirname(PROGRAM));
