import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv';
import { expect, test } from 'vitest';
import { folder, passagework } from './command';

const PASSAGE = 'player: ines.player\npassage: Slip\ntempo: 1/4 = 72\n1/4 D6o E6o A6o F#5<>B5 G5 ||\n';
const PLAYER = 'name: Ines\n// by hand\nIII 1/4: 3 of 4  // mostly\n';

test('a recording is judged, told as JSON, counted once and taken back without a trace', { timeout: 120_000 }, () => {
  using own = folder({ 'slip.passage': PASSAGE, 'ines.player': PLAYER });
  const run = (...words: string[]) => passagework(words, { cwd: own.path });
  const player = () => readFileSync(join(own.path, 'ines.player'), 'utf8');
  run('convert', 'slip.passage', '--to', 'wav', '--out', 'slip.wav');

  const json = run('listen', 'slip.passage', 'slip.wav', '--format', 'json');
  expect(json.code).toBe(0);
  const report = JSON.parse(json.out);
  const valid = new Ajv({ allErrors: true, strict: false }).compile(
    JSON.parse(readFileSync('client/schemas/report.schema.json', 'utf8')),
  );
  expect([valid(report), valid.errors]).toEqual([true, null]);
  expect(report.takes[0].notes.map(({ verdict }: { verdict: string }) => verdict)).toEqual(Array(5).fill('spoke'));

  expect(run('listen', 'slip.passage', 'slip.wav', '--log', '--diff').out).toContain('+III 1/4: 4 of 5  // mostly');
  expect(player()).toBe(PLAYER);
  expect(run('listen', 'slip.passage', 'slip.wav', '--log').code).toBe(0);
  const logged = player();
  expect(logged).toContain('III 1/4: 4 of 5  // mostly');
  expect(run('listen', 'slip.passage', 'slip.wav', '--log').out).toContain('counts this recording already');
  expect(player()).toBe(logged);
  run('listen', 'slip.passage', 'slip.wav', '--unlog');
  expect(player()).toBe(PLAYER);

  const paged = run('listen', 'slip.passage', 'slip.wav', '--page', 'slip.html');
  expect(paged.out).toContain('Page: slip.html');
  const page = readFileSync(join(own.path, 'slip.html'), 'utf8');
  expect(page).toMatch(/default-src 'none'; style-src 'sha256-[^']+'; script-src 'sha256-[^']+'/);
  expect(page.match(/<tr data-event=/g)).toHaveLength(5);
  expect(page.match(/<g class="pw-event" data-event=/g)).toHaveLength(5);
  expect(run('listen', 'slip.passage', 'slip.wav', '--page', 'slip.html').code).toBe(2);

  const refused = run('listen', 'slip.passage', 'ines.player');
  expect([refused.code, refused.err]).toEqual([2, expect.stringContaining('It is neither a WAV nor a FLAC file')]);
});

test('what failed in a recording becomes exercises, which can be read and played', { timeout: 120_000 }, () => {
  using own = folder({
    'slip.passage': PASSAGE.replace(/^player.*\n/, ''),
    'gap.passage': PASSAGE.replace(/^player.*\n/, '').replace('A6o', 'rest'),
  });
  const run = (...words: string[]) => passagework(words, { cwd: own.path });
  run('convert', 'gap.passage', '--to', 'wav', '--out', 'gap.wav');
  run('convert', 'slip.passage', '--to', 'wav', '--out', 'slip.wav');
  const made = run('listen', 'slip.passage', 'gap.wav', '--exercises', 'again.passage');
  expect(made.out).toContain('Exercises: again.passage (1 of what failed)');
  const text = readFileSync(join(own.path, 'again.passage'), 'utf8');
  expect(text).toContain('Hard spot 1: A6 in bar 1');
  expect(run('check', 'again.passage', '--fail-on', 'error').code).toBe(0);
  expect(run('listen', 'slip.passage', 'gap.wav', '--exercises', 'again.passage').code).toBe(2);
  expect(run('listen', 'slip.passage', 'slip.wav', '--exercises', 'none.passage').out).toContain(
    'No exercises: nothing in the recording failed',
  );
  expect(run('listen', 'slip.passage', 'slip.wav', '--exercises', 'slip.passage', '--force').code).toBe(2);
});
