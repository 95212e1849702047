import { readFileSync } from 'node:fs';
import { createMessageConnection, IPCMessageReader, IPCMessageWriter } from 'vscode-jsonrpc/node';
import { serveConversions } from './conversion';

const connection = createMessageConnection(new IPCMessageReader(process), new IPCMessageWriter(process));
// Done with, or whoever started it is gone.
connection.onClose(() => process.exit(0));
serveConversions(connection, async (sheet) => {
  const { sheetPdf } = await import('../exchange/sheet/pdf');
  // They ship beside the bundles.
  const font = (face: string) => readFileSync(new URL(`../fonts/${face}.ttf`, import.meta.url));
  return sheetPdf(sheet, { regular: font('regular'), bold: font('bold'), italic: font('italic') });
});
