import { fork } from 'node:child_process';
import { IPCMessageReader, IPCMessageWriter } from 'vscode-jsonrpc/node';
import { Converter } from '../../client/converter';
import type { Bundle } from '../../server/l10n/translate';
import type { PlayerParams } from '../../server/protocol/messages';

/** The converter as it ships, started anew for each request as the desktop extension does. `players` are player files by name. */
export function converterAt(
  module: string,
  {
    ended = () => undefined,
    players = {},
    words,
  }: { ended?: () => void; players?: Readonly<Record<string, string>>; words?: Bundle } = {},
): Converter {
  const start = async () => {
    const child = fork(module, [], { stdio: 'ignore' });
    child.once('exit', ended);
    return {
      transports: { reader: new IPCMessageReader(child), writer: new IPCMessageWriter(child) },
      end: () => child.kill(),
    };
  };
  const readPlayer = async ({ file }: PlayerParams) => {
    const text = players[file];
    return text === undefined ? { missing: 'there is no such file' } : { text };
  };
  return new Converter(start, readPlayer, undefined, words);
}
