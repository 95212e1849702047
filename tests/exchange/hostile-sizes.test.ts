import { zipSync } from 'fflate';
import { expect, it } from 'vitest';
import { importScore } from '../../server/exchange/import-score';

/** What it takes to refuse a file, in seconds of this processor's time. */
function refusal(bytes: Uint8Array, reason: RegExp): number {
  const began = process.cpuUsage();
  expect(() => importScore(bytes, {})).toThrow(reason);
  const { user, system } = process.cpuUsage(began);
  return (user + system) / 1e6;
}

it('an archive of 60,000 entries is refused in time', () => {
  const entries = Object.fromEntries(Array.from({ length: 60_000 }, (_, i) => [`f${i}`, new Uint8Array(0)]));
  expect(refusal(zipSync(entries, { level: 0 }), /more than 1000 entries/)).toBeLessThan(2);
});

it('a tag of 300,000 attributes is refused in time', () => {
  const attributes = Array.from({ length: 300_000 }, (_, i) => `a${i}="1"`).join(' ');
  const text = `<?xml version="1.0"?><score-partwise ${attributes}></score-partwise>`;
  expect(refusal(new TextEncoder().encode(text), /tag of more than 20,000 characters/)).toBeLessThan(2);
});
