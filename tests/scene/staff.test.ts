import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { tupletOf } from '../../server/music/note-values';
import { staffBars } from '../../server/scene/staff/bars';
import { clefFor } from '../../server/scene/staff/clef';
import { arcAt, arcOver } from '../../server/scene/staff/curves';
import { printedNotes } from '../../server/scene/staff/printed';
import { printedValues } from '../../server/scene/staff/rhythm';
import { drawStaff } from '../../server/scene/staff/staff';
import { lighthouse } from './lighthouse';
import { attribute, elements } from './markup';
import { places } from './signs';
import { passageOf } from './solved';

const NOTEHEAD = 0xe0a4;
const HOLLOW_DIAMOND = 0xe0dd;
const CIRCLE = 0xe614;

const staff = (text: string, width = 900) => drawStaff(passageOf(text), { width });

test('this test runs where there is no document to draw on', () => expect(typeof document).toBe('undefined'));

describe('printed form', () => {
  test('artificial: a round note stopped, a diamond touched, what sounds in brackets', () => {
    const { svg } = staff('1/4 E5<>A5 [II 1-4]');
    expect(places(svg, NOTEHEAD)).toHaveLength(1);
    expect(places(svg, HOLLOW_DIAMOND)).toHaveLength(1);
    expect(svg).toContain('(E7)');
    // A fourth apart on the staff: three steps of half a staff space (10 px each), the diamond above.
    expect(places(svg, NOTEHEAD)[0]!.y - places(svg, HOLLOW_DIAMOND)[0]!.y).toBeCloseTo(15, 3);
  });

  test('natural: a lone diamond where it is touched', () => {
    const passage = passageOf('1/4 D6o [III at 1/4]');
    expect(printedNotes(passage.events[0]!)).toEqual([{ pitch: 'G4', head: 'diamond', note: 0, circle: false }]);
    expect(drawStaff(passage, { width: 500 }).svg).toContain('(D6)');
  });

  test('natural touched where it sounds: a round note under a circle, nothing in brackets', () => {
    const { svg } = staff('1/4 A5o [II at 1/2]');
    expect(places(svg, NOTEHEAD)).toHaveLength(1);
    expect(places(svg, CIRCLE)).toHaveLength(1);
    expect(svg).not.toContain('(A5)');
  });

  test('an event that cannot be played is printed as asked, with a question mark', () => {
    const { svg } = staff('1/4 A4 C2');
    expect(places(svg, NOTEHEAD)).toHaveLength(2);
    expect(svg).toContain('>?</text>');
  });

  test.each([
    ['none', '1/4 D5 | E5 ||', 0],
    ['before the first note', '|: 1/4 D5 | E5 ||', 2],
    ['back to the beginning', '1/4 D5 | E5 :|', 2],
    ['around a bar', '1/4 D5 |: E5 :| F5', 4],
    ['back to back', '|: 1/4 D5 :| |: E5 :|', 8],
    ['where a new line begins', '1/4 D5 |:\n> Again\nE5 :|', 4],
  ])('repeats, %s: two dots at each sign', (_, text, dots) => {
    expect(staff(text).svg.match(/a2 2 0 1 0 4 0a/g) ?? []).toHaveLength(dots);
  });

  test('strings are named where they change', () => {
    const names = (text: string) => staff(text).svg.match(/>(IV|III|II|I)<\/text>/g) ?? [];
    expect(names('1/4 B4 [II] C5 [II] A5 [I] B5 [I]')).toEqual(['>II</text>', '>I</text>']);
  });

  test('fingers, bows, dynamics and tempo are signs of the trade, not letters', () => {
    const { svg } = staff('tempo: 1/4 = 96\n1/4 p down(B4 [1]) up(C5 [2]) f D5 [3]');
    for (const sign of [0xed11, 0xed12, 0xed13, 0xe610, 0xe612, 0xe520, 0xe522, 0xe1d5])
      expect(places(svg, sign).length).toBeGreaterThan(0);
    expect(svg).toContain('= 96');
  });

  test('slurs are arcs over their notes', () => {
    expect(staff('1/8 slur(B4 C5 D5) E5 slur(F5 G5)').svg.match(/pw-slur/g)).toHaveLength(2);
    expect(staff('1/8 B4 C5').svg).not.toContain('pw-slur');
  });

  test('a note that is slid into has a stroke into its head, the others none', () => {
    expect(staff('1/4 B4 slide D6o [III] B4').svg.match(/pw-slide/g)).toHaveLength(1);
  });

  test('a tie joins a held note to the next, and is not a slur besides', () => {
    expect(staff('1/4 B4_ B4').svg).not.toContain('pw-slur');
    expect(staff('1/4 slur(B4_ B4 C5)').svg.match(/pw-slur/g)).toHaveLength(1);
    const tied = staff('1/4 B4_ B4').svg.length;
    expect(tied).toBeGreaterThan(staff('1/4 B4 B4').svg.length);
  });
});

// Lines of the clefs: common practice, no source needed. Top line of the treble staff is F5, of the alto staff G4, of the bass staff A3.
describe('height on the staff', () => {
  test.each([
    ['instrument: violin\n1/4 F5', 0],
    ['instrument: violin\n1/4 E5', 5],
    ['instrument: violin\n1/4 B4', 20],
    ['instrument: violin\n1/4 E4', 40],
    ['instrument: viola\n1/4 G4 C4 C4 C4', 0],
    ['instrument: cello\n1/4 A3 C3 C3 C3', 0],
  ])('%j stands %d px below the top line', (text, y) => {
    const { svg } = staff(text);
    const lines = [...svg.matchAll(/pw-line-line"[^>]*d="M\S+ (\S+)L/g)].map(([, at]) => Number(at));
    const top = Math.min(...lines);
    // Lines are drawn half a pixel down, on the middle of a row of pixels.
    expect(places(svg, NOTEHEAD)[0]!.y - (top - 0.5)).toBeCloseTo(y, 2);
  });

  test('a key is signed at the head of every line, and its notes carry no accidental again', () => {
    const sharps = (text: string) => places(staff(text).svg, 0xe262).length;
    expect(sharps('key: D major\n1/4 F#5 C#5 D5')).toBe(2);
    expect(sharps('1/4 F#5 C#5 D5')).toBe(2);
    expect(sharps('key: B minor\n1/4 D5 G#5')).toBe(3);
    expect(places(staff('key: D major\n1/4 F5').svg, 0xe261)).toHaveLength(1);
    // No signature has eight sharps: every accidental is written out.
    expect(sharps('key: G# major\n1/4 F#5')).toBe(1);
  });

  test('the cello reads the clef with the fewest ledger lines', () => {
    expect(clefFor(passageOf('instrument: cello\n1/4 C3 D3 E3'))).toBe('bass');
    expect(clefFor(passageOf('instrument: cello\n1/4 A4 B4 C5 D5'))).toBe('treble');
  });
});

describe('rhythm', () => {
  test.each([
    ['1/4', ['4']],
    ['3/8', ['4.']],
    ['7/16', ['4..']],
    ['5/8', ['2', '8']],
    ['1', ['1']],
    ['3/2', ['1.']],
    ['9/8', ['1', '8']],
    ['1/12', ['8 in 3:2']],
    ['1/20', ['16 in 5:4']],
    ['1/6', ['4 in 3:2']],
  ])('%s is written %j', (length, written) => {
    const said = printedValues(new Fraction(length)).map(
      ({ base, dots, tuplet }) => `${base}${'.'.repeat(dots)}${tuplet ? ` in ${tuplet.notes}:${tuplet.inTimeOf}` : ''}`,
    );
    expect(said).toEqual(written);
  });

  test('what is written lasts as long as what was asked, for every fraction down to 1/64', () => {
    for (const part of [1, 2, 4, 8, 16, 32, 64, 3, 6, 12, 24, 48, 5, 10, 20, 7, 28]) {
      for (let count = 1; count <= 2 * part && count < 80; count++) {
        const length = new Fraction(count, part);
        const written = printedValues(length).reduce((sum, value) => sum.add(value.length), new Fraction(0));
        expect(written.equals(length), length.toFraction()).toBe(true);
      }
    }
  });

  test('a tuplet is one until it is plain again', () => {
    expect(tupletOf(new Fraction(1, 12))).toEqual({ notes: 3, inTimeOf: 2 });
    expect(tupletOf(new Fraction(3, 8))).toBeUndefined();
    const digits = places(staff('meter: 2/4\n1/12 B4 C5 D5 B4 C5 D5').svg, 0xe883);
    expect(digits).toHaveLength(2);
  });

  test('bars hold exactly their length, rests as they are written', () => {
    const passage = passageOf('meter: 4/4\n1/4 rest B4 1/2 C5 | 1/4 D5 1/2 rest 1/4 E5 | D5 rest rest E5 |');
    for (const bar of staffBars(passage)) {
      expect(bar.stretches.reduce((sum, { length }) => sum.add(length), new Fraction(0)).toFraction()).toBe('1');
    }
    // SMuFL (W3C): a quarter rest, a half rest.
    const { svg } = drawStaff(passage, { width: 900 });
    expect(places(svg, 0xe4e5)).toHaveLength(3);
    expect(places(svg, 0xe4e4)).toHaveLength(1);
  });

  test('a fermata, a dynamic and words stand over and under the rest that they are written before', () => {
    const { svg } = staff('1/4 B4 p pizz fermata rest crescendo C5 D5 end crescendo | E5 f rest');
    const rests = places(svg, 0xe4e5);
    const near = (code: number, rest: number) => places(svg, code).some(({ x }) => Math.abs(x - (rests[rest]?.x ?? 0)) < 12);
    expect([near(0xe4c0, 0), near(0xe520, 0), near(0xe522, 1)]).toEqual([true, true, true]);
    expect(svg).toContain('pizz.');
    expect(svg.match(/pw-hairpin/g)).toHaveLength(1);
  });

  test('a text in quotation marks stands over its note, inside a slur too', () => {
    expect(staff('slur(1/4 B4 "dolce" C5)').svg).toMatch(/<text[^>]*>dolce<\/text>/);
  });

  test('a dynamic that says again what holds is printed again', () => {
    expect(places(staff('1/4 f B4 C5 f D5').svg, 0xe522)).toHaveLength(2);
  });

  test('a silent bar has one whole rest in its middle, whatever its meter', () => {
    const { svg, boxes } = staff('meter: 3/4\n1/4 B4 C5 D5 | 3/4 rest | 1/4 B4 C5 D5 |');
    const [rest, ...others] = places(svg, 0xe4e3);
    expect(others).toEqual([]);
    const [left, right] = elements(svg, 'path', 'd')
      .flatMap((bar) => /^M([\d.]+) 0h1v41/.exec(attribute(bar, 'd'))?.[1] ?? [])
      .map(Number) as [number, number];
    expect(boxes[2]!.x).toBeLessThan(left);
    expect(boxes[3]!.x).toBeGreaterThan(right);
    expect(Math.abs(rest!.x + 5 - (left + right) / 2)).toBeLessThan(8);
    // It hangs from the second line from above; lines are 10 px apart.
    expect(places(staff('1/1 B4 rest').svg, 0xe4e3)[0]!.y - places(staff('1/1 B4 rest').svg, 0xe0a2)[0]!.y).toBe(-10);
  });

  test.each([
    ['meter: 3/8\n1/8 B4 C5 D5 |', 1],
    ['meter: 6/8\n1/8 B4 C5 D5 B4 C5 D5 |', 2],
    ['meter: 2/4\n1/8 B4 C5 D5 B4 |', 2],
    ['meter: 2/2\n1/8 B4 C5 D5 B4 B4 C5 D5 B4 |', 2],
    ['1/8 B4 C5 D5 B4', 2],
  ])('%j has %i beams', (text, count) => {
    const beams = elements(staff(text).svg, 'path', 'd').filter((path) =>
      /^M[\d. -]+(?:L[\d. -]+){3}Z$/.test(attribute(path, 'd')),
    );
    expect(beams).toHaveLength(count);
  });
});

describe('layout', () => {
  const long = passageOf(`meter: 4/4\n${'1/8 D5 F#5 A5 D6o E6o F#6o G6o A6o |\n'.repeat(12)}`);

  test.each([420, 700, 1400])('every note stands inside a sheet %d px wide, left to right in each line', (width) => {
    const drawn = drawStaff(long, { width });
    expect(drawn.width).toBe(width);
    expect(drawn.boxes.map(({ event }) => event)).toEqual(long.events.map(({ index }) => index));
    for (const [index, box] of drawn.boxes.entries()) {
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(width);
      expect(box.y + box.height).toBeLessThanOrEqual(drawn.height);
      const next = drawn.boxes[index + 1];
      if (next && next.y === box.y) expect(next.x).toBeGreaterThan(box.x);
    }
  });

  test('a narrower sheet has more lines', () => {
    const lines = (width: number) => places(drawStaff(long, { width }).svg, 0xe050).length;
    expect(lines(420)).toBeGreaterThan(lines(900));
    expect(lines(900)).toBeGreaterThan(lines(1800));
  });

  test('a bar that fits no line goes on in the next: nothing is cut off or lost', () => {
    const unbarred = passageOf(`1/8 ${'D5 F#5 A5 D6o '.repeat(16)} 1/12 ${'B4 C5 D5 '.repeat(6)}`);
    const drawn = drawStaff(unbarred, { width: 500 });
    expect(drawn.width).toBe(500);
    expect(drawn.boxes.map(({ event }) => event)).toEqual(unbarred.events.map(({ index }) => index));
    expect(places(drawn.svg, 0xe050).length).toBeGreaterThan(4);
    // Every triplet still has its number.
    expect(places(drawn.svg, 0xe883)).toHaveLength(6);
  });

  test('some bars can be drawn by themselves', () => {
    const drawn = drawStaff(long, { width: 900, bars: { first: 4, end: 6 } });
    expect(drawn.boxes.map(({ event }) => event)).toEqual(long.events.slice(32, 48).map(({ index }) => index));
  });

  test('an arc clears what lies under it', () => {
    const tops = [
      { x: 0, y: 0 },
      { x: 30, y: -25 },
      { x: 60, y: -10 },
      { x: 90, y: 0 },
    ];
    const arc = arcOver(tops)!;
    for (const { x, y } of tops.slice(1, -1)) expect(arcAt(arc, x)).toBeLessThan(y);
    expect(arcAt(arc, 200)).toBeUndefined();
    // From a low note to a high one close by: the arc begins higher, and is no hoop.
    const steep = [
      { x: 0, y: 0 },
      { x: 48, y: -50 },
      { x: 96, y: -45 },
      { x: 245, y: -30 },
    ];
    const over = arcOver(steep)!;
    for (const { x, y } of steep.slice(1, -1)) expect(arcAt(over, x)).toBeLessThan(y);
    expect(over.lift).toBeLessThan(40);
  });
});

describe('the drawing as a file', () => {
  test('carries its signs as outlines: no font is needed, and nothing else either', () => {
    const { svg } = drawStaff(lighthouse(), { width: 700 });
    expect(svg).not.toMatch(/[\u{e000}-\u{f8ff}]/u);
    expect(svg).not.toMatch(/NaN|undefined|Infinity|<style|<script| style=|href|font-family="Bravura/);
  });

  test('is the same every time', () => {
    expect(drawStaff(lighthouse(), { width: 700 }).svg).toBe(drawStaff(lighthouse(), { width: 700 }).svg);
  });

  test('an empty passage is an empty sheet', () => {
    const empty = { ...lighthouse(), events: [], bars: [], instructions: [] };
    expect(drawStaff(empty, { width: 500 }).boxes).toEqual([]);
  });
});
