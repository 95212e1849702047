import { fork } from 'node:child_process';
import { IPCMessageReader, IPCMessageWriter } from 'vscode-jsonrpc/node';
import { Converter } from '../../client/converter';

/** The converter as it ships, started anew for each request as the desktop extension does. `players` are player files by name. */
export function converterAt(
  module: string,
  { ended = () => undefined, players = {} }: { ended?: () => void; players?: Readonly<Record<string, string>> } = {},
): Converter {
  const start = async () => {
    const child = fork(module, [], { stdio: 'ignore' });
    child.once('exit', ended);
    return {
      transports: { reader: new IPCMessageReader(child), writer: new IPCMessageWriter(child) },
      end: () => child.kill(),
    };
  };
  return new Converter(start, async ({ file }) => {
    const text = players[file];
    return text === undefined ? { missing: 'there is no such file' } : { text };
  });
}
