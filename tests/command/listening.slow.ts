import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { Chance } from '../listening/chance';
import { type Manner, type Played, perform } from '../listening/performance';
import { record } from '../listening/synthesis';
import { wavOf } from '../listening/wav-of';
import { passageOf } from '../scene/solved';
import { folder, measured, passagework } from './command';

const RATE = 44_100;
const PLAIN: Manner = { faults: 0, vibrato: false, falseStart: false, takes: 1, drift: 0 };

/** A take of a passage, each note changed as wanted. */
function take(text: string, change: (note: Played) => Partial<Played>): Float32Array {
  const scene = passageOf(text);
  const whole = perform(new Chance(7), scene, PLAIN);
  const played = whole.played.map((note) => ({ ...note, ...change(note) }));
  return record(new Chance(8), scene.board, { ...whole, played }, { rate: RATE, method: 'partials', noise: 25 });
}

test('ten times that a harmonic did not speak, counted from a recording, finger it elsewhere', { timeout: 120_000 }, () => {
  const music = `tempo: 1/4 = 72\nmeter: 4/4\n1/4 ${Array(10).fill('F#6o D5').join(' ')} ||\n`;
  using own = folder({ 'swell.passage': `player: kit.player\n${music}`, 'kit.player': 'name: Kit\nhand: medium\n' });
  const run = (...words: string[]) => passagework(words, { cwd: own.path });
  const harmonics = (): readonly string[] => {
    const { passages } = JSON.parse(run('solve', 'swell.passage', '--format', 'json').out);
    const notes = passages[0].events.flatMap(
      (event: { notes: { sounding: string; string: string; touch?: object }[] }) => event.notes,
    );
    return notes.flatMap(({ sounding, string, touch }: { sounding: string; string: string; touch?: { fraction: string } }) =>
      sounding === 'F#6' ? [`${string} ${touch?.fraction}`] : [],
    );
  };
  const before = harmonics();
  expect(new Set(before).size).toBe(1);
  // Its finger does nothing: the open string sounds.
  const broken = take(music, ({ scene, hz }) => (scene.sounding === 'F#6' ? { partial: 1, hz: hz / scene.partial } : {}));
  writeFileSync(join(own.path, 'take.wav'), wavOf(broken, RATE));
  expect(run('listen', 'swell.passage', 'take.wav', '--log').code).toBe(0);
  expect(readFileSync(join(own.path, 'kit.player'), 'utf8')).toContain(`${before[0]}: 0 of 10`);
  expect(harmonics()).not.toContain(before[0]);
});

test('ten minutes take less than a fifth of their length of a processor, and less than 300 MB', { timeout: 600_000 }, () => {
  const text = `tempo: 1/4 = 72\nmeter: 4/4\n${Array(6).fill('1/4 D6o E6o F#6o A6o | 1/8 D5 E5 F#5 G5 A5 G5 F#5 E5 | 1/4 E5<>A5 F#5<>B5 G5 A5').join(' |\n')} ||\n`;
  const once = take(text, () => ({}));
  const times = Math.ceil((600 * RATE) / once.length);
  const samples = new Float32Array(times * once.length);
  for (let i = 0; i < times; i++) samples.set(once, i * once.length);
  using own = folder({ 'long.passage': text });
  writeFileSync(join(own.path, 'long.wav'), wavOf(samples, RATE));
  const { code, out, seconds, megabytes } = measured(['listen', 'long.passage', 'long.wav'], own.path);
  expect(code).toBe(0);
  expect(out).toContain(`${times} whole takes`);
  expect(seconds / (samples.length / RATE)).toBeLessThan(0.2);
  expect(megabytes).toBeLessThan(300);
});

test('the same recording as FLAC says the same; damaged, that it is', { timeout: 120_000 }, () => {
  const text = 'tempo: 1/4 = 72\nmeter: 4/4\n1/4 D6o E6o F#6o A6o ||\n';
  using own = folder({ 'slip.passage': text });
  const run = (recording: string) => passagework(['listen', 'slip.passage', recording], { cwd: own.path });
  writeFileSync(
    join(own.path, 'take.wav'),
    wavOf(
      take(text, ({ event, hz, scene }) => (event === 1 ? { partial: 1, hz: hz / scene.partial } : {})),
      RATE,
    ),
  );
  execFileSync('flac', ['--silent', 'take.wav'], { cwd: own.path });
  const plain = run('take.wav');
  expect(plain.code).toBe(0);
  expect(run('take.flac')).toEqual(plain);
  const bytes = readFileSync(join(own.path, 'take.flac'));
  bytes.fill(0, bytes.length >> 1, (bytes.length >> 1) + 100);
  writeFileSync(join(own.path, 'damaged.flac'), bytes);
  const { code, err } = run('damaged.flac');
  expect([code, err]).toEqual([
    2,
    expect.stringMatching(/damaged.flac can't be listened to. The FLAC file is damaged \d\.\d seconds after its beginning/),
  ]);
});
