/** Packs the command and the library as `out/passagework.tgz`, a name without the version, so that instructions hold for all. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, renameSync } from 'node:fs';

mkdirSync('out', { recursive: true });
const packed = execFileSync('npm', ['pack', '--json', '--ignore-scripts', '--pack-destination', 'out'], {
  encoding: 'utf8',
  shell: process.platform === 'win32',
});
const [{ filename, files, size }] = JSON.parse(packed);
renameSync(`out/${filename.replace('/', '-').replace('@', '')}`, 'out/passagework.tgz');
console.log(`out/passagework.tgz: ${files.length} files, ${(size / 1024).toFixed(0)} KB`);
