/// <reference lib="dom" />
import { BrowserMessageReader, BrowserMessageWriter, createConnection, ProposedFeatures } from 'vscode-languageserver/browser';
import type { Runtime } from '../workspace/pace';
import { connect } from './connect';

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
connect(createConnection(ProposedFeatures.all, new BrowserMessageReader(worker), new BrowserMessageWriter(worker)), runtime);
