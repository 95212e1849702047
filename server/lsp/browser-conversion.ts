/// <reference lib="dom" />
import { BrowserMessageReader, BrowserMessageWriter, createMessageConnection } from 'vscode-jsonrpc/browser';
import { serveConversions } from './conversion';

const worker = globalThis as unknown as Worker;
serveConversions(createMessageConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker)));
