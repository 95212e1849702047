/**
 * `npm run workbench`: a real VS Code in the browser, on a folder of examples, with the packaged extension. Prints its
 * address and runs until Ctrl+C. `npm run workbench -- web` runs the extension in a web worker instead of Node.
 */
import { folderAddress, sampleFolder } from './sample';
import { startServer } from './vscode-server';

const extensionHost = process.argv.includes('web') ? 'web' : 'node';
const server = await startServer({ name: 'workbench', extensionHost });
const end = async () => {
  await server.stop();
  process.exit(0);
};
process.once('SIGINT', end);
process.once('SIGTERM', end);
console.log(
  `\nVS Code with Passagework (${extensionHost} extension host): ${folderAddress(server.origin, sampleFolder('sample'))}`,
);
console.log('Ctrl+C ends it.');
