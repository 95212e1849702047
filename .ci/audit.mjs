/**
 * Known weaknesses of the packages that we build with, as the registry tells them. Advice only: a closed network's mirror has
 * often no such service, and a weakness published overnight is no fault of the change at hand. Prints what was found, ends with 0.
 */
import { spawnSync } from 'node:child_process';

const { stdout } = spawnSync('npm', ['audit', '--json'], {
  encoding: 'utf8',
  timeout: 60_000,
  shell: process.platform === 'win32',
});
const counts = read(stdout)?.metadata?.vulnerabilities;
if (counts) {
  const found = Object.entries(counts).filter(([level, count]) => level !== 'total' && count > 0);
  console.log(`Known weaknesses: ${found.map(([level, count]) => `${count} ${level}`).join(', ') || 'none'}.`);
  if (found.length > 0) console.log('`npm audit` tells of each. What ships is listed in dist/NOTICES.txt.');
} else {
  console.log('NOTICE: this registry gives no audit, so nothing is known about weaknesses. Run `npm audit` where it does.');
}

function read(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
