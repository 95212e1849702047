import { type ChildProcess, fork } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { afterEach, expect, it } from 'vitest';
import { createMessageConnection, IPCMessageReader, IPCMessageWriter } from 'vscode-jsonrpc/node';
import { EXERCISES_REQUEST, type ExercisesParams, type ExercisesReply } from '../../server/protocol/messages';
import { reading } from '../support/reading';

let converter: ChildProcess | undefined;
afterEach(() => void converter?.kill());

/** Asks the converter as built, as the extension does. */
async function asked(params: Partial<ExercisesParams>): Promise<ExercisesReply> {
  converter = fork('dist/server/node-conversion.js', [], { stdio: 'ignore' });
  const connection = createMessageConnection(new IPCMessageReader(converter), new IPCMessageWriter(converter));
  connection.listen();
  const text = readFileSync('client/examples/lighthouse-study.passage', 'utf8');
  const whole: ExercisesParams = { text, line: 0, instrument: '', hand: '', safeChance: 0.8, ...params };
  const reply = await connection.sendRequest<ExercisesReply>(EXERCISES_REQUEST, whole);
  connection.dispose();
  return reply;
}

function text(reply: ExercisesReply): string {
  if ('problem' in reply) throw new Error(reply.problem);
  return reply.text;
}

it('answers the editor with the exercises of the passage at the cursor, and the kinds there are', async () => {
  const lines = readFileSync('client/examples/lighthouse-study.passage', 'utf8').split('\n');
  const line = lines.indexOf('passage: Harbour bells') + 3;
  const reply = await asked({ line, file: 'lighthouse-study.passage' });
  expect(text(reply)).toMatch(/^\/\/ Exercises made by Passagework from Harbour bells \(lighthouse-study\.passage\)\.\n/);
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

it('says what is wrong where there is nothing to practise', async () => {
  expect(await asked({ text: '' })).toMatchObject({ problem: expect.stringMatching(/the file has no notes/) });
  expect(await asked({ text: '1/4 D5\n', kinds: ['double-stops'] })).toMatchObject({
    problem: expect.stringMatching(/a double stop with a harmonic in it/),
  });
});
