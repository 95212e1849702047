import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import type { Runtime } from '../workspace/pace';
import { connect } from './connect';

const runtime: Runtime = {
  now: () => performance.now(),
  pause: () => new Promise((go) => setImmediate(go)),
};

/** Reads how to talk from the command line: `--stdio`, `--node-ipc`, `--socket=PORT`. */
connect(createConnection(ProposedFeatures.all), runtime);
