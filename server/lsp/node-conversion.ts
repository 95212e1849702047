import { createMessageConnection, IPCMessageReader, IPCMessageWriter } from 'vscode-jsonrpc/node';
import { convert } from './conversion';

const connection = createMessageConnection(new IPCMessageReader(process), new IPCMessageWriter(process));
// Done with, or whoever started it is gone.
connection.onClose(() => process.exit(0));
convert(connection);
