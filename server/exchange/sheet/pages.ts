import { t } from '../../l10n/translate';
import { COLUMNS, type Diagram } from './diagrams';
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
  caution: { size: 9, after: 8 },
  footer: { size: 7.5, after: 0 },
};

/** Measures a text as it will be set: points of height at a width. */
export type Ruler = (text: string, style: TextStyle, width: number) => number;

const GUTTER = 12;
const SYSTEM_GAP = 9;
const PART_GAP = 18;
const FOOT = 14;

/** A run of blocks that stays together on one page; `y` counts from its top. */
interface Group {
  readonly height: number;
  readonly items: readonly Placed[];
  readonly before: number;
  /** Said first where a page begins with this, which a reader could not place otherwise. */
  readonly resumed?: string;
}

/**
 * The pages of a sheet: headings stay with the first line of their music, lines and diagrams are never cut. A passage with diagrams
 * begins on a new page where that keeps all of it together; where no page is long enough, the diagrams of the next say whose they are.
 */
export function pagesOf(sheet: Sheet, ruler: Ruler): readonly (readonly Placed[])[] {
  const width = sheet.paper.width - 2 * MARGIN;
  const bottom = sheet.paper.height - MARGIN - FOOT;
  const title = stacked([['title', sheet.title] as const, ...sheet.remarks.map((r) => ['remark', r] as const)], width, ruler);
  const pages: Placed[][] = [[]];
  let y = MARGIN;
  const put = (group: Group): void => {
    const fits = y === MARGIN || y + group.before + group.height <= bottom;
    if (!fits) {
      pages.push([]);
      y = MARGIN;
      if (group.resumed) put(stacked([['facts', group.resumed]], width, ruler));
    }
    const top = y === MARGIN ? y : y + group.before;
    pages.at(-1)?.push(...group.items.map((item) => ({ ...item, x: item.x + MARGIN, y: item.y + top })));
    y = top + group.height;
  };
  put(title);
  sheet.parts.forEach((part, index) => {
    const groups = groupsOf(part, sheet.title, width, ruler);
    const height = groups.reduce((sum, group) => sum + group.before + group.height, 0);
    if (index > 0 && part.diagrams.length > 0 && y + height > bottom && MARGIN + height <= bottom) {
      pages.push([]);
      y = MARGIN;
    }
    for (const group of groups) put(group);
  });
  return pages.map((page, i) => [
    ...page,
    {
      kind: 'text',
      style: 'footer',
      x: MARGIN,
      y: bottom + 4,
      width,
      text: t('{footer} · page {page} of {pages}', { footer: sheet.footer, page: i + 1, pages: pages.length }),
    },
  ]);
}

function groupsOf(part: SheetPart, title: string, width: number, ruler: Ruler): readonly Group[] {
  const heads = [
    ...(part.heading ? [['heading', part.heading] as const] : []),
    ['facts', part.facts] as const,
    ...(part.caution ? [['caution', part.caution] as const] : []),
  ];
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
    ...part.diagrams.map((row) => ({ ...rowOf(row, width, ruler), resumed: `${part.heading || title}, continued` })),
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

/** Diagrams beside each other, each with its lines under it. */
function rowOf(diagrams: readonly Diagram[], width: number, ruler: Ruler): Group {
  const column = (width - (COLUMNS - 1) * GUTTER) / COLUMNS;
  const items: Placed[] = [];
  let height = 0;
  for (const [j, { drawing, place, words }] of diagrams.entries()) {
    const x = j * (column + GUTTER);
    const scale = Math.min(SCALE, column / drawing.width);
    const tall = drawing.height * scale;
    const under = tall + ruler(place, 'place', column);
    items.push({ kind: 'drawing', svg: drawing.svg, x, y: 0, width: drawing.width * scale, height: tall });
    items.push({ kind: 'text', style: 'place', text: place, x, y: tall, width: column });
    items.push({ kind: 'text', style: 'words', text: words, x, y: under, width: column });
    height = Math.max(height, under + ruler(words, 'words', column));
  }
  return { before: 10, height, items };
}
