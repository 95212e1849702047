import { createConnection as dial } from 'node:net';
import type { Readable, Writable } from 'node:stream';
import {
  createConnection,
  IPCMessageReader,
  IPCMessageWriter,
  type MessageReader,
  type MessageWriter,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import type { Runtime } from '../workspace/pace';
import { connect } from './connect';
import { createDoor } from './door';
import { watchFrames } from './node-frames';

const runtime: Runtime = {
  now: () => performance.now(),
  pause: () => new Promise((go) => setImmediate(go)),
};

/** How to talk, as every client of this kind says it on the command line: the client listens on a port or pipe, the server calls. */
function transport(args: readonly string[]): [MessageReader, MessageWriter] {
  const value = (name: string) => {
    const at = args.findIndex((arg) => arg === name || arg.startsWith(`${name}=`));
    return at < 0 ? undefined : args[at] === name ? args[at + 1] : args[at]?.slice(name.length + 1);
  };
  const [port, pipe] = [value('--socket'), value('--pipe')];
  if (args.includes('--node-ipc')) return [new IPCMessageReader(process), new IPCMessageWriter(process)];
  if (port !== undefined || pipe !== undefined) {
    const socket = pipe === undefined ? dial(Number(port), '127.0.0.1') : dial(pipe);
    socket.on('error', ({ message }) => {
      console.error(`The editor can't be reached at ${pipe ?? `port ${port}`}: ${message}.`);
      process.exit(1);
    });
    return over(socket, socket);
  }
  // What a library prints must not get between the messages.
  console.log = console.error;
  return over(process.stdin, process.stdout);
}

function over(input: Readable, output: Writable): [MessageReader, MessageWriter] {
  watchFrames(input, (why) => {
    console.error(`What came in is not a message from an editor: ${why}. The server ends, so that it can be started again.`);
    process.exit(1);
  });
  return [new StreamMessageReader(input), new StreamMessageWriter(output)];
}

const [reader, writer] = transport(process.argv.slice(2));
reader.onClose(() => process.exit(1));

// A fault that no handler caught must not take the open documents of an editor with it.
for (const event of ['uncaughtException', 'unhandledRejection']) {
  process.on(event, (error: unknown) => console.error(`Fault outside of any request: ${String(error)}`));
}

connect(createConnection(reader, writer, { messageStrategy: createDoor(writer) }), runtime);
