import { beforeEach, expect, it, vi } from 'vitest';

vi.mock('vscode', () => import('./fake-vscode'));

import { Projects } from '../../client/projects';
import { disk, Uri, watchers } from './fake-vscode';

const TEXT = '{ "exclude": ["drafts/"], "baseline": "known/all.json" }';
const ask = async (projects: Projects, uri: string) => {
  const { configuration } = projects.middleware.workspace as unknown as {
    configuration: (params: object, token: unknown, next: () => unknown) => Promise<unknown[]>;
  };
  const [settings] = await configuration({ items: [{ scopeUri: uri }] }, undefined, () => [{ hand: 'small' }]);
  return settings;
};

beforeEach(() => {
  disk.clear();
  watchers.length = 0;
  disk.set('file:///bay/passagework.json', TEXT);
  disk.set('file:///bay/known/all.json', '{ "version": 2 }');
});

it('hands on, with a file’s settings, its project and its baseline, and what each calls the file', async () => {
  expect(await ask(new Projects(), 'file:///bay/deep/tide.passage')).toEqual({
    hand: 'small',
    project: TEXT,
    path: 'deep/tide.passage',
    baseline: '{ "version": 2 }',
    recordedAs: '../deep/tide.passage',
  });
});

it('does without a baseline that is not there, and with a project file that can’t be read', async () => {
  disk.delete('file:///bay/known/all.json');
  expect(await ask(new Projects(), 'file:///bay/tide.passage')).toEqual({ hand: 'small', project: TEXT, path: 'tide.passage' });
  disk.set('file:///bay/passagework.json', '{ "baseline": ');
  expect(await ask(new Projects(), 'file:///bay/tide.passage')).toMatchObject({
    project: '{ "baseline": ',
    path: 'tide.passage',
  });
});

it('has the server ask again when the project or its baseline changes, and for no other JSON file', async () => {
  const projects = new Projects();
  const sendNotification = vi.fn();
  projects.watch({ isRunning: () => true, sendNotification } as never);
  await ask(projects, 'file:///bay/tide.passage');
  watchers[0]!.created.fire(Uri.parse('file:///bay/package.json'));
  expect(sendNotification).not.toHaveBeenCalled();
  disk.set('file:///bay/known/all.json', '{ "version": 2, "findings": {} }');
  watchers[0]!.created.fire(Uri.parse('file:///bay/known/all.json'));
  expect(sendNotification).toHaveBeenCalledWith('workspace/didChangeConfiguration', { settings: null });
  expect(await ask(projects, 'file:///bay/tide.passage')).toMatchObject({ baseline: '{ "version": 2, "findings": {} }' });
  watchers[0]!.created.fire(Uri.parse('file:///bay/deep/passagework.json'));
  expect(sendNotification).toHaveBeenCalledTimes(2);
});
