/**
 * Takes the outlines of the music signs that the staff draws out of the font and writes them as a table,
 * `server/scene/staff/outlines.ts`: drawings then need no font, in Node as in a page that may load nothing.
 *
 *   node outlines.mjs         writes the table
 *
 * A test makes the table anew and compares. The outlines stay under the font's licence, which lies beside the table.
 */
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { create } from 'fontkit';

const FONT = new URL('./node_modules/@vexflow-fonts/bravura/', import.meta.url);
const STAFF = new URL('./server/scene/staff/', import.meta.url);

/** Code points by what they are for (Standard Music Font Layout 1.4). */
const SIGNS = {
  clefs: [0xe050, 0xe05c, 0xe062],
  'time signatures': range(0xe080, 0xe089),
  noteheads: [0xe0a0, 0xe0a2, 0xe0a3, 0xe0a4, 0xe0a9, 0xe0db, 0xe0dd, 0xe0de],
  dots: [0xe1e7, 0xe044],
  flags: range(0xe240, 0xe249),
  accidentals: [0xe260, 0xe261, 0xe262, 0xe263, 0xe264],
  rests: range(0xe4e2, 0xe4ea),
  bowing: [0xe610, 0xe612],
  strings: [0xe614, 0xe624],
  fingers: range(0xed10, 0xed14),
  dynamics: [0xe520, 0xe521, 0xe522, 0xe523, 0xe524, 0xe525],
  articulations: [0xe4a0, 0xe4a2, 0xe4a4, 0xe4a6, 0xe4ac, 0xe4c0, 0xe4ce],
  ornaments: [0xe566, 0xe567, 0xe568, 0xe56c, 0xe56d],
  tremolos: [0xe220, 0xe221, 0xe222],
  plucked: [0xe630, 0xe633],
  'repeat signs': [0xe047, 0xe048],
  'grace notes': [0xe564],
  tuplets: range(0xe880, 0xe889),
  'notes in text': [0xe1d2, 0xe1d3, 0xe1d5, 0xe1d7, 0xe1d9],
};

function range(from, to) {
  return Array.from({ length: to - from + 1 }, (_, index) => from + index);
}

/** One path with y downward, in thousandths of an em, whole numbers: finer than any printer. */
function drawn(path) {
  const number = { moveTo: 'M', lineTo: 'L', quadraticCurveTo: 'Q', bezierCurveTo: 'C', closePath: 'Z' };
  return path.commands
    .map(({ command, args }) => number[command] + args.map((value, index) => Math.round(index % 2 ? -value : value)).join(' '))
    .join('');
}

/** The text of `outlines.ts`. */
export function outlineTable() {
  const font = create(readFileSync(new URL('bravura.otf', FONT)));
  const rows = Object.entries(SIGNS).flatMap(([purpose, codes]) => [
    `# ${purpose}`,
    ...codes.map((code) => {
      if (!font.hasGlyphForCodePoint(code)) throw new Error(`the font has no sign U+${code.toString(16).toUpperCase()}`);
      const { path, advanceWidth, bbox } = font.glyphForCodePoint(code);
      const box = [bbox.minX, -bbox.maxY, bbox.maxX, -bbox.minY].map(Math.round).join(' ');
      return `${code.toString(16)} ${Math.round(advanceWidth)} ${box} ${drawn(path)}`;
    }),
  ]);
  return `/**
 * Outlines of the music signs of the staff, made by \`node outlines.mjs\`; not edited by hand. A part of the font of
 * ${font.copyright.split('\n')[0]}
 * in another form, under the SIL Open Font License 1.1: see OUTLINES-LICENSE.txt beside this file.
 */

/** Thousandths of an em; a staff space is a quarter of an em. y runs downward. */
export interface Outline {
  readonly advance: number;
  /** Left, top, right, bottom. */
  readonly box: readonly [number, number, number, number];
  readonly d: string;
}

// One sign a line: code point, advance, box, path.
const TABLE = \`
${rows.join('\n')}
\`;

export const OUTLINES: ReadonlyMap<number, Outline> = new Map(
  TABLE.split('\\n')
    .filter((row) => row !== '' && !row.startsWith('#'))
    .map((row) => {
      const [code = '', advance, left, top, right, bottom, ...d] = row.split(' ');
      const box = [Number(left), Number(top), Number(right), Number(bottom)] as const;
      return [Number.parseInt(code, 16), { advance: Number(advance), box, d: d.join(' ') }];
    }),
);
`;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  writeFileSync(new URL('outlines.ts', STAFF), outlineTable());
  copyFileSync(new URL('LICENSE.txt', FONT), new URL('OUTLINES-LICENSE.txt', STAFF));
  console.log(`wrote ${fileURLToPath(new URL('outlines.ts', STAFF))}`);
}
