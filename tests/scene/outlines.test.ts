import { readFileSync } from 'node:fs';
import VexFlow from 'vexflow/core';
import { describe, expect, test } from 'vitest';
import { OUTLINES } from '../../server/scene/staff/outlines';
import { xy } from './markup';

interface Metadata {
  readonly fontName: string;
  readonly glyphBBoxes: Readonly<
    Record<string, { readonly bBoxNE: readonly [number, number]; readonly bBoxSW: readonly [number, number] }>
  >;
  readonly glyphAdvanceWidths: Readonly<Record<string, number>>;
}

// The script is plain JavaScript: it runs without a build.
const script: string = '../../outlines.mjs';
const { outlineTable } = (await import(script)) as { outlineTable(): string };
const metadata = JSON.parse(readFileSync('node_modules/@vexflow-fonts/bravura/metadata.json', 'utf8')) as Metadata;
const STAFF_SPACE = 250;

test('the table is what the script makes of the font', () => {
  expect(readFileSync('server/scene/staff/outlines.ts', 'utf8')).toBe(outlineTable());
});

test('the licence lies beside it, and the part is not called by the reserved name', () => {
  expect(readFileSync('server/scene/staff/OUTLINES-LICENSE.txt', 'utf8')).toContain('SIL OPEN FONT LICENSE Version 1.1');
  // The name stands in the copyright notice that must be kept, and nowhere else.
  expect(outlineTable().replace(/^ \* Copyright.*$/m, '')).not.toMatch(/bravura/i);
});

// Standard Music Font Layout 1.4 (W3C): names and code points as the vexflow package lists them, boxes and widths in
// staff spaces from the font's own SMuFL metadata file.
describe.each([
  'gClef',
  'noteheadBlack',
  'noteheadHalf',
  'noteheadDiamondWhite',
  'accidentalSharp',
  'stringsHarmonic',
  'stringsDownBow',
  'stringsUpBow',
  'stringsThumbPosition',
  'fingering4',
  'dynamicMezzo',
  'restQuarter',
  'tuplet3',
])('%s', (name) => {
  const outline = OUTLINES.get((VexFlow.Glyphs as unknown as Record<string, string>)[name]!.codePointAt(0)!)!;

  test('has the box and width that the font’s metadata give', () => {
    const { bBoxNE, bBoxSW } = metadata.glyphBBoxes[name]!;
    const box = [bBoxSW[0], -bBoxNE[1], bBoxNE[0], -bBoxSW[1]].map((spaces) => spaces * STAFF_SPACE);
    for (const [side, value] of outline.box.entries()) expect(Math.abs(value - box[side]!)).toBeLessThanOrEqual(1.5);
    expect(Math.abs(outline.advance - metadata.glyphAdvanceWidths[name]! * STAFF_SPACE)).toBeLessThanOrEqual(1.5);
  });

  test('is drawn inside its box', () => {
    const [left, top, right, bottom] = outline.box;
    // Handles of curves may stick out a little; ends do not.
    for (const { x, y } of xy(outline.d.replace(/C(-?[\d.]+ -?[\d.]+ -?[\d.]+ -?[\d.]+) /g, 'L'))) {
      expect(x).toBeGreaterThanOrEqual(left - 1);
      expect(x).toBeLessThanOrEqual(right + 1);
      expect(y).toBeGreaterThanOrEqual(top - 1);
      expect(y).toBeLessThanOrEqual(bottom + 1);
    }
  });
});
