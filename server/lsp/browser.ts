/// <reference lib="dom" />
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import type { Runtime } from '../workspace/pace';
import { connect } from './connect';
import { createDoor } from './door';

/** A timer would wait four milliseconds every time; a message to oneself waits only for what is queued already. */
const channel = new MessageChannel();
const waiting: (() => void)[] = [];
channel.port1.onmessage = () => waiting.shift()?.();

const runtime: Runtime = {
  now: () => performance.now(),
  pause: () =>
    new Promise((go) => {
      waiting.push(go);
      channel.port2.postMessage(undefined);
    }),
};

const worker = globalThis as unknown as Worker;
const writer = new BrowserMessageWriter(worker);
const connection = createConnection(new BrowserMessageReader(worker), writer, { messageStrategy: createDoor(writer) });
connection.onExit(() => globalThis.close());
connect(connection, runtime);
