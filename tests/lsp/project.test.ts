import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, expect, it } from 'vitest';
import type { ProjectSettings } from '../../server/protocol/settings';
import { folder, passagework } from '../command/command';
import { type LanguageClient, PULLING, startClient } from '../support/language-client';

const PROJECT = '{ "exclude": ["drafts/"], "baseline": "known/all.json" }';
const OLD = 'D5 G#6o [III third] D5\nH5\n';

let client: LanguageClient | undefined;
afterEach(async () => {
  await client?.stop();
  client = undefined;
});

/** Codes of what the editor shows of a text, where the settings come with these. */
async function shown(text: string, settings: Partial<ProjectSettings>): Promise<readonly unknown[]> {
  client = await startClient({ capabilities: PULLING, settings: () => settings });
  const uri = 'file:///bay/deep/tide.passage';
  await client.open(uri, text);
  await client.solved(uri, 1);
  return (await client.pull(uri)).map(({ code }) => code);
}

it('what the command has recorded in the project’s baseline is not shown in the editor, what is new is', async () => {
  using place = folder({ 'passagework.json': PROJECT, 'deep/tide.passage': OLD, 'known/x': '' });
  const { code } = passagework(['check', '--write-baseline', 'known/all.json', '.'], { cwd: place.path });
  expect(code).toBe(0);
  const baseline = readFileSync(join(place.path, 'known/all.json'), 'utf8');
  const settings = { project: PROJECT, path: 'deep/tide.passage', baseline, recordedAs: '../deep/tide.passage' };
  expect(await shown(OLD, {})).toEqual(['lone-third', 'pitch-letter']);
  await client?.stop();
  expect(await shown(OLD, settings)).toEqual([]);
  await client?.stop();
  // A line above moves what is known; the line that changes is told again.
  expect(await shown(`// Full bows.\n${OLD.replace('H5', 'H5 D5')}`, settings)).toEqual(['pitch-letter']);
});

it('a file that the project leaves out is read, and nothing is said of it', async () => {
  expect(await shown(OLD, { project: PROJECT, path: 'drafts/tide.passage' })).toEqual([]);
  expect(await client?.request('passagework/scene', { uri: 'file:///bay/deep/tide.passage' })).toMatchObject({
    scene: { passages: [expect.anything()] },
  });
});
