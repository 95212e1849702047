import { createRequire } from 'node:module';
import { CannotRun } from './cannot-run';

/** `passagework serve`: the language server, a program of its own beside this one, which reads the same words and ends the process itself. */
export function serve(options: object): Promise<number> {
  if (!['stdio', 'nodeIpc', 'socket'].some((way) => way in options))
    throw new CannotRun('Say how to speak to the editor: serve --stdio.');
  createRequire(import.meta.url)('./server/node.js');
  return new Promise(() => {});
}
