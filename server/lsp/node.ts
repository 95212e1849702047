import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import type { Runtime } from '../workspace/pace';
import { connect } from './connect';

const runtime: Runtime = {
  now: () => performance.now(),
  pause: () => new Promise((go) => setImmediate(go)),
};

/** Reads how to talk from the command line: `--stdio`, `--node-ipc`, `--socket=PORT`. */
const connection = createConnection(ProposedFeatures.all);

// A fault that no handler caught must not take the open documents of an editor with it.
for (const event of ['uncaughtException', 'unhandledRejection']) {
  process.on(event, (error: unknown) => connection.console.error(`Fault outside of any request: ${String(error)}`));
}

connect(connection, runtime);
