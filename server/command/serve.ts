import { createRequire } from 'node:module';
import { CannotRun } from './cannot-run';

/** `passagework serve`: the language server, a program of its own beside this one, which reads the same words and ends the process itself. */
export function runServe(options: { readonly socket?: string; readonly pipe?: string }): Promise<number> {
  if (!['stdio', 'nodeIpc', 'socket', 'pipe'].some((way) => way in options))
    throw new CannotRun('Say how to speak to the editor: serve --stdio.');
  const { socket } = options;
  if (socket !== undefined && !(/^\d{1,5}$/.test(socket) && Number(socket) >= 1 && Number(socket) <= 65_535))
    throw new CannotRun(`--socket: ${socket} is not a port; write its number, 1 to 65535.`);
  createRequire(import.meta.url)('./server/node.js');
  return new Promise(() => {});
}
