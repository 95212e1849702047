import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { EXERCISES_REQUEST, type ExercisesParams, type ExercisesReply } from '../../server/protocol/messages';
import { converterAt } from '../support/converter';
import { reading } from '../support/reading';

const STUDY = readFileSync('client/examples/lighthouse-study.passage', 'utf8');

/** Asks the converter as built, as the extension does. */
function asked(params: Partial<ExercisesParams>, players: Readonly<Record<string, string>> = {}): Promise<ExercisesReply> {
  const converter = converterAt('dist/server/node-conversion.js', { players });
  const whole = { uri: 'file:///studies/a.passage', text: STUDY, line: 0, instrument: '', hand: '', safeChance: 0.8, ...params };
  return converter.request<ExercisesParams, ExercisesReply>(EXERCISES_REQUEST, whole);
}

function text(reply: ExercisesReply): string {
  if ('problem' in reply) throw new Error(reply.problem);
  return reply.text;
}

it('answers the editor with the exercises of the passage at the cursor, and the kinds there are', async () => {
  const line = STUDY.split('\n').indexOf('passage: Harbour bells') + 3;
  const reply = await asked({ line, file: 'lighthouse-study.passage' });
  expect(text(reply)).toMatch(
    /^title: Exercises for Harbour bells\n\/\/ Exercises made by Passagework from Harbour bells \(lighthouse-study\.passage\)\.\n/,
  );
  expect('kinds' in reply && reply.kinds.map(({ name }) => name)).toContain('double-stops');
  const again = reading(text(reply));
  expect(again.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
});

it('makes the kinds ticked, for the instrument and hand of the settings', async () => {
  const params = { text: '1/4 D5 E5 F5 G5 E5<>A5 [II]\n', kinds: ['tempo-ladder'], instrument: 'violin 3/4', hand: 'large' };
  const made = text(await asked(params));
  expect(made).toMatch(/^instrument: violin 3\/4\nhand: large$/m);
  expect(made.match(/^passage: .*$/gm)).toEqual(['passage: Tempo ladder: bar 1']);
});

it('writes the hand of the player whose file the passage names into the exercises, which may be kept elsewhere', async () => {
  const made = text(
    await asked({ text: 'player: ines.player\n1/4 D5 E5 F5 G5\n' }, { 'ines.player': 'hand: 1-2 45, 1-3 66, 1-4 91\n' }),
  );
  expect(made).toMatch(/^hand: 1-2 45, 1-3 66, 1-4 91, /m);
  expect(made).not.toContain('player:');
});

it('says what is wrong where there is nothing to practise', async () => {
  expect(await asked({ text: '' })).toMatchObject({ problem: expect.stringMatching(/the file has no notes/) });
  expect(await asked({ text: '1/4 D5\n', kinds: ['double-stops'] })).toMatchObject({
    problem: expect.stringMatching(/a double stop with a harmonic in it/),
  });
});
