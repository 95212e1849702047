import type { Diagram } from './diagrams';
import { MARGIN, SCALE } from './paper';
import type { Sheet, SheetPart } from './sheet';

/** Something at its place on a page; points from the top left corner of the paper. */
export type Placed = { readonly x: number; readonly y: number; readonly width: number } & (
  | { readonly kind: 'text'; readonly style: TextStyle; readonly text: string }
  | { readonly kind: 'drawing'; readonly svg: string; readonly height: number }
);

export type TextStyle = 'title' | 'remark' | 'heading' | 'facts' | 'problem' | 'place' | 'words' | 'caution' | 'footer';

/** Size of type and space after a block, points. */
export const STYLES: Readonly<Record<TextStyle, { readonly size: number; readonly after: number }>> = {
  title: { size: 18, after: 4 },
  remark: { size: 10, after: 2 },
  heading: { size: 13, after: 1 },
  facts: { size: 8, after: 8 },
  problem: { size: 9, after: 2 },
  place: { size: 8, after: 0 },
  words: { size: 7.5, after: 0 },
  caution: { size: 9, after: 0 },
  footer: { size: 7.5, after: 0 },
};

/** Measures a text as it will be set: points of height at a width. */
export type Ruler = (text: string, style: TextStyle, width: number) => number;

const COLUMNS = 4;
const GUTTER = 12;
const SYSTEM_GAP = 9;
const PART_GAP = 18;
const FOOT = 14;

/** A run of blocks that stays together on one page; `y` counts from its top. */
interface Group {
  readonly height: number;
  readonly items: readonly Placed[];
  readonly before: number;
}

/** The pages of a sheet: headings stay with the first line of their music, lines and diagrams are never cut. */
export function pagesOf(sheet: Sheet, ruler: Ruler): readonly (readonly Placed[])[] {
  const width = sheet.paper.width - 2 * MARGIN;
  const bottom = sheet.paper.height - MARGIN - FOOT;
  const groups = [
    stacked([['title', sheet.title] as const, ...sheet.remarks.map((r) => ['remark', r] as const)], width, ruler),
    ...sheet.parts.flatMap((part) => groupsOf(part, width, ruler)),
  ];
  const pages: Placed[][] = [[]];
  let y = MARGIN;
  for (const { height, items, before } of groups) {
    const top = y === MARGIN ? y : y + before;
    const fits = top + height <= bottom || y === MARGIN;
    if (!fits) pages.push([]);
    const at = fits ? top : MARGIN;
    pages.at(-1)?.push(...items.map((item) => ({ ...item, x: item.x + MARGIN, y: item.y + at })));
    y = at + height;
  }
  return pages.map((page, i) => [
    ...page,
    {
      kind: 'text',
      style: 'footer',
      x: MARGIN,
      y: bottom + 4,
      width,
      text: `${sheet.footer} · page ${i + 1} of ${pages.length}`,
    },
  ]);
}

function groupsOf(part: SheetPart, width: number, ruler: Ruler): readonly Group[] {
  const heads = [...(part.heading ? [['heading', part.heading] as const] : []), ['facts', part.facts] as const];
  const head = stacked(heads, width, ruler);
  const [first, ...others] = part.systems.map(({ svg, width: w, height }) => {
    const scale = Math.min(SCALE, width / w);
    return { svg, width: w * scale, height: height * scale };
  });
  const opening: Group = first
    ? {
        before: PART_GAP,
        height: head.height + first.height,
        items: [...head.items, { kind: 'drawing', x: 0, y: head.height, ...first }],
      }
    : { ...head, before: PART_GAP };
  return [
    opening,
    ...others.map(
      (system): Group => ({ before: SYSTEM_GAP, height: system.height, items: [{ kind: 'drawing', x: 0, y: 0, ...system }] }),
    ),
    ...part.problems.map((text) => ({ ...stacked([['problem', text]], width, ruler), before: 6 })),
    ...rowsOf(part.diagrams, width, ruler),
    ...(part.caution ? [{ ...stacked([['caution', part.caution]], width, ruler), before: 10 }] : []),
  ];
}

function stacked(texts: readonly (readonly [TextStyle, string])[], width: number, ruler: Ruler): Group {
  const items: Placed[] = [];
  let y = 0;
  for (const [style, text] of texts) {
    items.push({ kind: 'text', style, text, x: 0, y, width });
    y += ruler(text, style, width) + STYLES[style].after;
  }
  return { height: y, items, before: 0 };
}

/** Diagrams four in a row, each with its lines under it. */
function rowsOf(diagrams: readonly Diagram[], width: number, ruler: Ruler): readonly Group[] {
  const column = (width - (COLUMNS - 1) * GUTTER) / COLUMNS;
  const rows: Group[] = [];
  for (let i = 0; i < diagrams.length; i += COLUMNS) {
    const items: Placed[] = [];
    let height = 0;
    for (const [j, { drawing, place, words }] of diagrams.slice(i, i + COLUMNS).entries()) {
      const x = j * (column + GUTTER);
      const scale = Math.min(SCALE, column / drawing.width);
      const tall = drawing.height * scale;
      const under = tall + ruler(place, 'place', column);
      items.push({ kind: 'drawing', svg: drawing.svg, x, y: 0, width: drawing.width * scale, height: tall });
      items.push({ kind: 'text', style: 'place', text: place, x, y: tall, width: column });
      items.push({ kind: 'text', style: 'words', text: words, x, y: under, width: column });
      height = Math.max(height, under + ruler(words, 'words', column));
    }
    rows.push({ before: 10, height, items });
  }
  return rows;
}
