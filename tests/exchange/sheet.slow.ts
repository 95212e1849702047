import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { inflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { sheetHtml } from '../../server/exchange/sheet/html';
import { pagesOf, type Ruler } from '../../server/exchange/sheet/pages';
import { MARGIN, PAPERS } from '../../server/exchange/sheet/paper';
import { sheetPdf } from '../../server/exchange/sheet/pdf';
import { buildSheet, type SheetChoice } from '../../server/exchange/sheet/sheet';
import { solvedScene } from './solved';

const STUDY = `passage: Lighthouse study, bars 1-4
meter: 4/4
tempo: 1/4 = 96
> Lift the touching finger as soon as the note has spoken.
1/8 D5 F#5 A5 D6o slur(1/16 E6o F#6o G6o A6o) 1/4 D7o |
1/4 E5<>A5 [II 1-4] G5<>D6 [I fifth] 1/2 D6o+A6o ||
`;
const TIDE = 'passage: Ebb & <flow>, for B♭\nmeter: 4/4\n1/4 D6o E6o F#6o C3 |';
const BASE: SheetChoice = { paper: 'A4', diagrams: 'harmonics', version: '1.2.3' };

/** Stands in for the fonts: lines of 90 letters, 1.2 times as high as the type of 10 points. */
const ruler: Ruler = (text) => 12 * Math.max(1, Math.ceil(text.length / 90));

describe('a sheet', () => {
  const study = solvedScene(STUDY);
  const tide = solvedScene(TIDE);

  test('is titled by its only passage, or by what is asked for', () => {
    expect(buildSheet([study], BASE)).toMatchObject({ title: 'Lighthouse study, bars 1-4', parts: [{ heading: '' }] });
    const both = buildSheet([study, tide], { ...BASE, title: 'Lighthouse studies' });
    expect(both.title).toBe('Lighthouse studies');
    expect(both.parts.map((p) => p.heading)).toEqual(['Lighthouse study, bars 1-4', 'Ebb & <flow>, for B♭']);
  });

  test('says the instrument, the version, a caution, and what can not be played', () => {
    const sheet = buildSheet([study, tide], BASE);
    expect(sheet.footer).toBe('Made with Passagework 1.2.3');
    expect(sheet.parts[0]?.facts).toContain('violin, strings of 328 mm · medium hand');
    const said = sheet.parts.map(({ caution }) => caution).filter((caution) => caution !== '');
    expect(said.length).toBeGreaterThan(0);
    expect(new Set(said).size).toBe(said.length);
    for (const caution of said) expect(caution).toMatch(/Pain means stop: rest, and ask a teacher or a clinician/);
    const warned = buildSheet([{ ...study, caution: 'Warm up. Pain means stop.' }, tide], BASE).parts;
    expect(warned.filter(({ caution }) => caution !== '')).toHaveLength(1);
    expect(sheet.parts[0]?.problems).toEqual([]);
    expect(sheet.parts[1]?.problems).toHaveLength(1);
    expect(sheet.parts[1]?.problems[0]).toMatch(/^Bar 1, beat 4: No string/);
  });

  test('shows a diagram for every node of a string and every kind of artificial harmonic, once', () => {
    const [part] = buildSheet(
      [solvedScene('1/4 D6o [III 1] D6o [III 2] A5 A6o [II] | E5<>A5 [II] F#5<>B5 [II] G5<>D6 [I fifth] D6o [III 1] |')],
      BASE,
    ).parts;
    expect(part?.diagrams.flat().map((d) => d.place)).toEqual([
      'Bar 1, beat 1',
      'Bar 1, beat 4',
      'Bar 2, beat 1',
      'Bar 2, beat 3',
    ]);
    expect(part?.diagrams[0]?.[0]?.words).toBe('D6: III natural 1/4, finger 1');
  });

  test('lays diagrams in even rows, each to one scale', () => {
    const [part] = buildSheet([solvedScene('1/4 G5o [IV] D6o [III] A6o [II] E7o [I] E5<>A5 [II]')], BASE).parts;
    expect(part?.diagrams.map((row) => row.length)).toEqual([3, 2]);
    for (const row of part?.diagrams ?? []) {
      const scales = row.map(({ drawing }) => drawing.width / Number(/viewBox="\S+ \S+ (\S+)/.exec(drawing.svg)?.[1]));
      for (const scale of scales) expect(scale).toBeCloseTo(scales[0] as number, 1);
    }
  });

  test('or for the notes chosen by bar and beat, and names the ones that no passage has', () => {
    const sheet = buildSheet([study, tide], { ...BASE, diagrams: ['1:3/2', '2:1', '9:1', '1:3'] });
    expect(sheet.parts.map((p) => p.diagrams.flat().map((d) => d.place))).toEqual([
      ['Bar 1, beat 1 1/2', 'Bar 2, beat 1', 'Bar 1, beat 3'],
      ['Bar 1, beat 3'],
    ]);
    expect(sheet.unknown).toEqual(['9:1']);
    expect(buildSheet([study], { ...BASE, diagrams: 'none' }).parts[0]?.diagrams).toEqual([]);
  });
});

describe('pages', () => {
  const long = solvedScene(`passage: Long swell\nmeter: 4/4\n${'1/8 D5 F#5 A5 D6o E6o F#6o G6o A6o |\n'.repeat(60)}`);

  test.each(['A4', 'Letter'] as const)('%s: everything lies inside the margins and nothing on anything else', (paper) => {
    const sheet = buildSheet([long, solvedScene(STUDY)], { ...BASE, paper, title: 'Studies', remarks: ['Slowly.'] });
    const pages = pagesOf(sheet, ruler);
    const { width, height } = PAPERS[paper];
    expect(pages.length).toBeGreaterThan(2);
    for (const page of pages) {
      const boxes = page.map((item) => ({
        x: item.x,
        y: item.y,
        right: item.x + item.width,
        bottom: item.y + (item.kind === 'text' ? ruler(item.text, item.style, item.width) : item.height),
      }));
      for (const [i, a] of boxes.entries()) {
        expect(a.x).toBeGreaterThanOrEqual(MARGIN);
        expect(a.right).toBeLessThanOrEqual(width - MARGIN + 0.01);
        expect(a.y).toBeGreaterThanOrEqual(MARGIN);
        expect(a.bottom).toBeLessThanOrEqual(height - MARGIN + 3);
        for (const b of boxes.slice(i + 1)) {
          const apart = a.right <= b.x + 0.01 || b.right <= a.x + 0.01 || a.bottom <= b.y + 0.01 || b.bottom <= a.y + 0.01;
          expect(apart).toBe(true);
        }
      }
    }
    const footers = pages.map((page) => page.find((item) => item.kind === 'text' && item.style === 'footer'));
    expect(footers.map((f) => f?.kind === 'text' && f.text)).toEqual(
      pages.map((_, i) => `Made with Passagework 1.2.3 · page ${i + 1} of ${pages.length}`),
    );
  });

  test('a heading is never left alone at the foot of a page', () => {
    const passages = Array.from({ length: 12 }, (_, i) => solvedScene(STUDY.replace('bars 1-4', `part ${i + 1}`)));
    for (const page of pagesOf(buildSheet(passages, { ...BASE, diagrams: 'none' }), ruler)) {
      const kinds = page.map((item) => (item.kind === 'text' ? item.style : 'drawing'));
      for (const [i, kind] of kinds.entries())
        if (kind === 'heading')
          expect(
            kinds
              .slice(i, i + 4)
              .filter((each) => each !== 'caution')
              .slice(0, 3),
          ).toEqual(['heading', 'facts', 'drawing']);
    }
  });

  test('no page begins with diagrams parted from their music without saying whose they are, none with a caution', () => {
    const passages = [...Array.from({ length: 6 }, (_, i) => solvedScene(STUDY.replace('bars 1-4', `part ${i + 1}`))), long];
    const pages = pagesOf(buildSheet(passages, { ...BASE, title: 'Studies' }), ruler);
    for (const page of pages) {
      const [first] = page;
      if (first?.kind === 'drawing') expect(first.svg).toContain('class="pw-staff"');
      else expect(['title', 'heading', 'facts']).toContain(first?.style);
    }
    // A study with its diagrams fits a page, so none of them is cut.
    const headings = pages.map((page) => page.filter((item) => item.kind === 'text' && item.style === 'facts'));
    expect(headings.flat().some((item) => item.kind === 'text' && /part \d, continued/.test(item.text))).toBe(false);
  });

  test('a passage without notes is still a page', () => {
    expect(pagesOf(buildSheet([solvedScene('passage: Nothing yet\n')], BASE), ruler)).toHaveLength(1);
  });
});

describe('as a web page', () => {
  const sheet = buildSheet([solvedScene(STUDY), solvedScene(TIDE)], { ...BASE, title: 'Tides & <lights>', remarks: ['a < b'] });
  const html = sheetHtml(sheet);

  test('is one file that loads and runs nothing', () => {
    expect(html).toContain("default-src 'none'");
    expect(html).not.toMatch(/<script|\son\w+=|<link|<img|@import|url\(/i);
    expect(html.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:/);
  });

  test('holds every line of music, diagram and caution, with text that stays text', () => {
    expect(html).toContain('<h1>Tides &#38; &#60;lights&#62;</h1>');
    expect(html).toContain('a &#60; b');
    expect(html.match(/class="system"/g)).toHaveLength(sheet.parts.reduce((sum, p) => sum + p.systems.length, 0));
    expect(html.match(/<figure>/g)).toHaveLength(sheet.parts.reduce((sum, p) => sum + p.diagrams.flat().length, 0));
    expect(html.match(/class="caution"/g)).toHaveLength(sheet.parts.filter(({ caution }) => caution !== '').length);
    expect(html).toContain('@page{size:A4');
    expect(sheetHtml({ ...sheet, paper: PAPERS.Letter })).toContain('@page{size:letter');
  });

  test('is the same text every time', () => {
    expect(
      sheetHtml(buildSheet([solvedScene(STUDY), solvedScene(TIDE)], { ...BASE, title: 'Tides & <lights>', remarks: ['a < b'] })),
    ).toBe(html);
  });
});

describe('as a PDF', () => {
  const fonts = dirname(createRequire(import.meta.url).resolve('dejavu-fonts-ttf/package.json'));
  const face = (name: string) => readFileSync(join(fonts, 'ttf', `${name}.ttf`));
  const faces = {
    regular: face('DejaVuSansCondensed'),
    bold: face('DejaVuSansCondensed-Bold'),
    italic: face('DejaVuSansCondensed-Oblique'),
  };

  test('is a file of that format on the paper asked for, with its own fonts, the same bytes every time', async () => {
    const make = () => sheetPdf(buildSheet([solvedScene(STUDY), solvedScene(TIDE)], { ...BASE, paper: 'Letter' }), faces);
    const bytes = await make();
    const text = Buffer.from(bytes).toString('latin1');
    expect(text.startsWith('%PDF-1.')).toBe(true);
    expect(text.trimEnd().endsWith('%%EOF')).toBe(true);
    expect(text.match(/\/MediaBox \[0 0 612 792\]/g)?.length).toBe(text.match(/\/Type \/Page\b(?!s)/g)?.length);
    expect(text).toMatch(/\/FontFile2/);
    expect(text).toMatch(/DejaVuSansCondensed/);
    expect(text).not.toMatch(/Helvetica/);
    expect(text).toContain('D:20000101000000Z');
    expect(Buffer.compare(Buffer.from(await make()), Buffer.from(bytes))).toBe(0);
  });

  test('has every sign of the staff where the drawing has it', async () => {
    // One system, so that one scale and one place hold for all.
    const sheet = buildSheet([solvedScene('1/4 D5 F#5 A5 D6o')], { ...BASE, diagrams: 'none' });
    const drawn = sheet.parts[0]!.systems[0]!.svg;
    const moved = Number(/<g transform="translate\(0 (\S+)\)">/.exec(drawn)?.[1] ?? 0);
    const signs = [...drawn.matchAll(/translate\((\S+) (\S+)\) scale\(\S+\)"/g)].map(([, x, y]) => [
      Number(x),
      Number(y) + moved,
    ]);
    const [viewX, viewY, wide, high] = /viewBox="([^"]*)"/.exec(drawn)![1]!.split(' ').map(Number) as [
      number,
      number,
      number,
      number,
    ];
    const place = pagesOf(sheet, ruler)
      .flat()
      .find((item) => item.kind === 'drawing')!;
    const scale = place.width / wide;
    const printed = places(await sheetPdf(sheet, faces)).slice(-signs.length);
    expect(signs.length).toBeGreaterThan(4);
    expect(place.height / high).toBeCloseTo(scale, 3);
    // The height of words above the staff is the fonts' own: all signs may stand lower or higher, together.
    const down = sheet.paper.height - printed[0]![1]! - scale * (signs[0]![1]! - viewY);
    for (const [at, [x, y]] of signs.entries()) {
      expect(printed[at]![0]).toBeCloseTo(place.x + scale * (x! - viewX), 1);
      expect(sheet.paper.height - printed[at]![1]!).toBeCloseTo(down + scale * (y! - viewY), 1);
    }
  });

  /** Where the space of each fill begins, in points from the bottom left of its page, by the operators of ISO 32000-1, 8.3 and 8.5. */
  function places(pdf: Uint8Array): readonly (readonly number[])[] {
    const found: (readonly number[])[] = [];
    const bytes = Buffer.from(pdf);
    const text = bytes.toString('latin1');
    for (const { index } of text.matchAll(/stream\n(?=x)/g)) {
      const content = inflateSync(bytes.subarray(index + 7, text.indexOf('endstream', index))).toString('latin1');
      if (!/ cm$/m.test(content)) continue;
      const kept: number[][] = [];
      let space = [1, 0, 0, 1, 0, 0];
      let numbers: number[] = [];
      for (const word of content.split(/\s+/)) {
        const number = Number(word);
        if (word !== '' && !Number.isNaN(number)) {
          numbers.push(number);
          continue;
        }
        const [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0] = space;
        if (word === 'q') kept.push(space);
        else if (word === 'Q') space = kept.pop() ?? space;
        else if (word === 'f') found.push([e, f]);
        else if (word === 'cm') {
          const [p = 1, q = 0, r = 0, s = 1, t = 0, u = 0] = numbers.slice(-6);
          space = [p * a + q * c, p * b + q * d, r * a + s * c, r * b + s * d, t * a + u * c + e, t * b + u * d + f];
        }
        numbers = [];
      }
    }
    return found;
  }
});
