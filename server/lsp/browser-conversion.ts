/// <reference lib="dom" />
import { BrowserMessageReader, BrowserMessageWriter, createMessageConnection } from 'vscode-jsonrpc/browser';
import { convert } from './conversion';

const worker = globalThis as unknown as Worker;
convert(createMessageConnection(new BrowserMessageReader(worker), new BrowserMessageWriter(worker)));
