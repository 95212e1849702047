import PDFDocument from 'pdfkit';
import drawSvg from 'svg-to-pdfkit';
import { LIGHT, type Role } from '../../scene/look';
import { type Placed, pagesOf, STYLES, type TextStyle } from './pages';
import type { Sheet } from './sheet';

/**
 * TrueType files of one family, embedded as far as a sheet uses them: the built-in fonts of PDF readers have no ♯, no ♭ and only
 * western letters. The caller brings them, since this file reads nothing.
 */
export interface SheetFonts {
  readonly regular: Uint8Array;
  readonly bold: Uint8Array;
  readonly italic: Uint8Array;
}

const FACES: Readonly<Record<TextStyle, keyof SheetFonts>> = {
  title: 'bold',
  remark: 'regular',
  heading: 'bold',
  facts: 'regular',
  problem: 'regular',
  place: 'bold',
  words: 'regular',
  caution: 'italic',
  footer: 'regular',
};
const ROLES: Partial<Readonly<Record<TextStyle, Role>>> = { facts: 'faint', footer: 'faint', words: 'faint', problem: 'stop' };

/** Every sheet carries this date, so that equal sheets are equal bytes. */
const DATE = new Date(Date.UTC(2000, 0, 1));

/** The sheet as a PDF. Equal sheets and fonts give equal bytes. Runs under Node only. */
export async function sheetPdf(sheet: Sheet, fonts: SheetFonts): Promise<Uint8Array> {
  const document = new PDFDocument({
    autoFirstPage: false,
    size: [sheet.paper.width, sheet.paper.height],
    margin: 0,
    lang: 'en',
    displayTitle: true,
    // None of the reader's own, and none of ours before it has a name: the library would decode its file at every mention.
    font: null as never,
    info: { Title: sheet.title, Creator: sheet.footer, Producer: sheet.footer, CreationDate: DATE, ModDate: DATE },
  });
  const bytes = collected(document);
  for (const face of ['regular', 'bold', 'italic'] as const) document.registerFont(face, fonts[face] as never);
  const ruler = (text: string, style: TextStyle, width: number) =>
    document.font(FACES[style]).fontSize(STYLES[style].size).heightOfString(text, { width });
  for (const page of pagesOf(sheet, ruler)) {
    document.addPage();
    for (const item of page) put(document, item);
  }
  document.end();
  return bytes;
}

function put(document: PDFKit.PDFDocument, item: Placed): void {
  if (item.kind === 'text') {
    const { text, style, x, y, width } = item;
    document
      .font(FACES[style])
      .fontSize(STYLES[style].size)
      .fillColor(LIGHT[ROLES[style] ?? 'ink']);
    document.text(text, x, y, { width, lineBreak: true });
    return;
  }
  const { svg, x, y, width, height } = item;
  // Without a size of its own the drawing fills the place it is given.
  drawSvg(document, svg.replace(/^(<svg[^>]*?) width="[^"]*" height="[^"]*"/, '$1'), x, y, {
    width,
    height,
    assumePt: true,
    fontCallback: (_family: string, bold: boolean, italic: boolean) => (bold ? 'bold' : italic ? 'italic' : 'regular'),
    warningCallback: () => {},
  });
}

function collected(document: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    document.on('error', reject);
    document.on('end', () => {
      const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
      let at = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, at);
        at += chunk.length;
      }
      resolve(bytes);
    });
  });
}
