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
  const { x, y, width, height } = item;
  const { svg, signs } = withoutSigns(item.svg.replaceAll(HIT, ''));
  // Without a size of its own the drawing fills the place it is given.
  drawSvg(document, svg.replace(/^(<svg[^>]*?) width="[^"]*" height="[^"]*"/, '$1'), x, y, {
    width,
    height,
    assumePt: true,
    fontCallback: (_family: string, bold: boolean, italic: boolean) => (bold ? 'bold' : italic ? 'italic' : 'regular'),
    warningCallback: () => {},
  });
  putSigns(document, signs, { ...item, box: boxOf(svg) });
}

/** A sign of the staff's font: its outline, and where it stands in the drawing. */
interface Sign {
  readonly fill: string;
  readonly x: number;
  readonly y: number;
  readonly scale: number;
  readonly outline: string;
}

/** What is seen by nobody and catches a pointer. */
const HIT = /<rect class="pw-hit"[^>]*\/>/g;

/** Groups, which may move what is in them, and signs as `outline-context.ts` writes them. */
const SIGNS =
  /<g\b([^>]*)>|<\/g>|<path class="[^"]*" fill="(#[\da-f]{6})" transform="translate\((\S+) (\S+)\) scale\((\S+)\)" d="([^"]+)"\/>/g;

/**
 * A drawing and the signs taken out of it. A sheet has thousands of them, few of which differ; the library would read each as a drawing of
 * its own, measure its curves, and take four times as long. They are all of ink, so it doesn't matter that they come last.
 */
function withoutSigns(drawing: string): { readonly svg: string; readonly signs: readonly Sign[] } {
  const signs: Sign[] = [];
  // How far each open group is moved; undefined within one that is turned or scaled.
  const moved: (readonly [x: number, y: number] | undefined)[] = [[0, 0]];
  const svg = drawing.replace(
    SIGNS,
    (all, group?: string, fill?: string, x?: string, y?: string, scale?: string, outline?: string) => {
      const from = moved.at(-1);
      if (group !== undefined) {
        if (!group.endsWith('/')) moved.push(from && movedBy(group, from));
      } else if (all === '</g>') moved.pop();
      else if (from && fill && outline) {
        signs.push({ fill, x: from[0] + Number(x), y: from[1] + Number(y), scale: Number(scale), outline });
        return '';
      }
      return all;
    },
  );
  return { svg, signs };
}

function movedBy(group: string, [x, y]: readonly [number, number]): readonly [number, number] | undefined {
  const how = / transform="([^"]*)"/.exec(group)?.[1];
  if (how === undefined) return [x, y];
  const by = /^translate\((\S+) (\S+)\)$/.exec(how);
  return by ? [x + Number(by[1]), y + Number(by[2])] : undefined;
}

function boxOf(svg: string): readonly [number, number, number, number] {
  const box = /^<svg[^>]*? viewBox="([^"]*)"/.exec(svg)?.[1]?.split(' ').map(Number) ?? [];
  const [left = 0, top = 0, width = 1, height = 1] = box;
  return [left, top, width, height];
}

interface Fitted {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** What is fitted in there, its middle in the middle. */
  readonly box: readonly [left: number, top: number, width: number, height: number];
}

function putSigns(document: PDFKit.PDFDocument, signs: readonly Sign[], { x, y, width, height, box }: Fitted): void {
  const [left, top, wide, high] = box;
  const fit = Math.min(width / wide, height / high);
  document.save();
  document.translate(x + (width - fit * wide) / 2 - fit * left, y + (height - fit * high) / 2 - fit * top).scale(fit);
  for (const sign of signs) {
    document.save().translate(sign.x, sign.y).scale(sign.scale);
    document.path(sign.outline).fill(sign.fill);
    document.restore();
  }
  document.restore();
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
