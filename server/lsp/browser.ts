/// <reference lib="dom" />
import { BrowserMessageReader, BrowserMessageWriter, createMessageConnection } from 'vscode-jsonrpc/browser';
import { connect, type Host } from './connect';

/** A timer would wait four milliseconds every time; a message to oneself waits only for what is queued already. */
const channel = new MessageChannel();
const waiting: (() => void)[] = [];
channel.port1.onmessage = () => waiting.shift()?.();

const host: Host = {
  now: () => performance.now(),
  pause: () =>
    new Promise((go) => {
      waiting.push(go);
      channel.port2.postMessage(undefined);
    }),
  // A worker ends with the page that started it.
  follow: () => undefined,
  end: () => globalThis.close(),
};

const worker = globalThis as unknown as Worker;
connect(createMessageConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker), console), host);
