import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it, vi } from 'vitest';

vi.mock('vscode', () => import('./fake-vscode'));
vi.mock('vscode-languageclient', () => ({ RevealOutputChannelOn: { Never: 4 } }));

import { clientOptions } from '../../client/language-client';
import { Uri } from './fake-vscode';

it('leaves it to the library to start a server again that has died, and hand it the open documents', () => {
  const options = clientOptions({ extensionUri: Uri.parse('file:///extension') } as never, {} as never);
  // A handler of our own would take the place of the library's, a count of 0 would tell it to give up at once.
  expect(options.errorHandler).toBeUndefined();
  expect(options.initializationFailedHandler).toBeUndefined();
  expect(options.connectionOptions?.maxRestartCount).toBeUndefined();
  expect(options.documentSelector).toContainEqual({ language: 'passage' });
  // Facts of the library that this counts on, as it is installed.
  const library = fileURLToPath(new URL('../../node_modules/vscode-languageclient/lib/common/client.js', import.meta.url));
  const code = readFileSync(library, 'utf8');
  expect(code).toContain('CloseAction.Restart');
  expect(code).toMatch(/maxRestartCount \?\? 4/);
});
