import { describe, expect, test } from 'vitest';
import { fingeringMarks } from '../../server/scene/staff/marks';
import { OUTLINES } from '../../server/scene/staff/outlines';
import { drawStaff, drawSystems } from '../../server/scene/staff/staff';
import { places } from './signs';
import { passageOf } from './solved';

const DIAMOND = { wide: 0xe0de, hollow: 0xe0dd, filled: 0xe0db };

const staff = (text: string, width = 900) => drawStaff(passageOf(text), { width });

describe('a reader who sees only the staff', () => {
  // Common practice, no source: a lone diamond has its value as any head does, one over a stopped note is always hollow.
  test.each([
    ['1/1 <>A4', 'wide'],
    ['1/2 <>A4', 'hollow'],
    ['1/4 <>A4', 'filled'],
    ['1/8 <>A4 <>A4', 'filled'],
    ['1/1 E5<>A5 [II]', 'hollow'],
    ['1/4 E5<>A5 [II]', 'hollow'],
    ['1/8 E5<>A5 [II] E5<>A5 [II]', 'hollow'],
  ] as const)('%s is touched under a %s diamond', (text, head) => {
    const { svg } = staff(text);
    for (const [name, code] of Object.entries(DIAMOND)) expect(places(svg, code).length > 0).toBe(name === head);
  });

  test.each([['A4'], ['<>A4'], ['A5o'], ['E5<>A5 [II]']])('%s is drawn differently for every value and dot', (note) => {
    // A 64th is the shortest sign of the engraver; dots would ask for shorter ones.
    const values = [...[1, 2, 4, 8, 16, 32].flatMap((base) => ['', '.', '..'].map((dots) => `1/${base}${dots}`)), '1/64'];
    // What lies in the note's own group, moved to a place of its own: the staff sees the widths of bars besides.
    const drawn = values.map((value) => {
      const [group = ''] = /<g class="pw-event".*?<\/g>/s.exec(staff(`${value} ${note}`).svg) ?? [];
      return group.replace(/<rect[^>]*>/, '');
    });
    expect(drawn.every((each) => each.includes('path'))).toBe(true);
    expect(new Set(drawn).size).toBe(values.length);
  });
});

describe('what is printed', () => {
  // Common practice, no source.
  test('fingers are printed where the hand does something new, on every note on request', () => {
    const scale = passageOf('1/4 A4 B4 C#5 D5 E5 F#5 [I 1] G#5 A5 C#6 [I 4]');
    const fingers = (marking: 'changes' | 'all') => {
      const { svg } = drawStaff(scale, { width: 1200, marking });
      return [0xed10, 0xed11, 0xed12, 0xed13, 0xed14].reduce((sum, code) => sum + places(svg, code).length, 0);
    };
    expect(fingers('all')).toBe(scale.events.length);
    expect(fingers('changes')).toBeLessThan(fingers('all'));
    expect(fingers('changes')).toBeGreaterThanOrEqual(3);
  });

  test('brackets stand before a chord that is asked to be broken or set in two halves, a wave before one that is rolled', () => {
    const signs = (text: string) => staff(text).svg.match(/pw-chord/g)?.length ?? 0;
    expect(signs('1/2 G3+D4+B4+G5')).toBe(0);
    expect(signs('1/2 G3+D4+B4+G5 [2+2]')).toBe(2);
    expect(signs('1/2 D4+A4+F#5 [2+1]')).toBe(1);
    expect(signs('1/2 G#3+D4+B4+F5')).toBe(2);
    expect(signs('1/2 arpeggiato G3+D4+B4+G5')).toBe(1);
  });

  // Common practice, no source: both with the value of the whole, stems alike, as many beams as the speed asks for.
  test('two notes by turns are printed each as long as both, with beams between them', () => {
    const beams = (text: string) => staff(text).svg.match(/pw-by-turns/g)?.length ?? 0;
    expect(beams('1/2 tremolo(A4 C5)')).toBe(0);
    expect(beams('1/2 fingered-tremolo(A4 C5)')).toBe(3);
    expect(beams('1/2 fingered-tremolo(1/16 A4 C5) 1/1 fingered-tremolo(1/8 E4 A5)')).toBe(3);
    const { svg } = staff('meter: 4/4\n1/1 fingered-tremolo(A4 C5) |');
    expect(places(svg, 0xe0a2)).toHaveLength(2);
  });

  test('bars of rest that are written as one are printed as one, with their number, and counted all the same', () => {
    const one = (text: string) => staff(`meter: 3/4\n3/4 D5 | ${text} | D5 |`).svg;
    const number = (svg: string) => places(svg, 0xe081).length * 10 + places(svg, 0xe082).length;
    expect(one('rest 12 bars').match(/pw-bars-rest/g)).toHaveLength(3);
    expect(number(one('rest 12 bars'))).toBe(11);
    expect(places(one('rest 12 bars'), 0xe4e3)).toHaveLength(0);
    expect(places(one('rest | rest | rest'), 0xe4e3)).toHaveLength(3);
    const late = staff('meter: 3/4\n3/4 D5 | rest 12 bars | D5 | E5 | F5 | G5 |', 300).svg;
    expect(late).toMatch(/>14<\/text>|>15<\/text>|>16<\/text>/);
  });

  test('an accidental over a trill stands over its sign, and nowhere else', () => {
    const { svg } = staff('1/4 trill-flat A4 [III 1] trill B4 [III 2]');
    const [first, second] = places(svg, 0xe566);
    const flats = places(svg, 0xe260);
    expect([first, second].every(Boolean)).toBe(true);
    expect(flats).toHaveLength(1);
    expect(flats[0]?.y).toBeLessThan(first?.y ?? 0);
  });

  test('a new line prints string and finger again', () => {
    const line = '1/8 B4 C5 D5 C5 B4 C5 D5 C5 |\n';
    const drawn = staff(`meter: 4/4\n${line.repeat(4)}`, 420);
    const lines = places(drawn.svg, 0xe050).length;
    expect(lines).toBeGreaterThan(1);
    expect(drawn.svg.match(/>II<\/text>/g)).toHaveLength(lines);
    expect(places(drawn.svg, 0xed11).length).toBeGreaterThanOrEqual(lines);
  });

  test('numbers of triplets stand under the notes, clear of the fingers over them', () => {
    const { svg } = staff('meter: 2/4\n1/12 D5 [1] E5 [2] F5 [3] A4 B4 C5');
    const fingers = [0xed10, 0xed11, 0xed12, 0xed13].flatMap((code) => places(svg, code));
    for (const number of places(svg, 0xe883)) for (const finger of fingers) expect(number.y).toBeGreaterThan(finger.y + 20);
  });

  // Common practice, no source: one value looks alike in every bar of a line, and dynamics of a line stand at one height.
  test('quarters are as far apart in a bar that has a half as in one of quarters alone', () => {
    const { boxes } = staff('meter: 4/4\n1/4 B4 C5 D5 C5 | B4 C5 1/2 D5 |', 1200);
    const apart = (index: number) => (boxes[index + 1]?.x ?? 0) - (boxes[index]?.x ?? 0);
    expect(apart(4) / apart(1)).toBeGreaterThan(0.85);
    expect(apart(4) / apart(1)).toBeLessThan(1.15);
  });

  test('no last line is left with a lone bar that the lines before could share', () => {
    const lines = drawSystems(passageOf(`meter: 4/4\n${'1/8 B4 C5 D5 C5 B4 C5 D5 C5 |\n'.repeat(10)}`), { width: 1000 });
    const notes = lines.map(({ boxes }) => boxes.length);
    expect(lines.length).toBeGreaterThan(1);
    expect(notes.at(-1) as number).toBeGreaterThan(Math.max(...notes) / 2);
  });

  test('dynamics and the hairpin between them stand at one height, however low some notes lie', () => {
    const { svg } = staff('1/4 pp E5 crescendo D5 G3 A3 f E5');
    const [soft] = places(svg, 0xe520);
    const [loud] = places(svg, 0xe522);
    const [, point = ''] = /pw-hairpin"[^>]* d="M\S+ \S+L\S+ ([\d.]+)L/.exec(svg) ?? [];
    expect(soft?.y).toBe(loud?.y);
    expect(Number(point)).toBe((loud?.y ?? 0) - 4);
  });

  test('what two notes sound as stands one over the other, never beside the next', () => {
    const { svg } = staff('1/12 D6o+A6o E6o+B6o F#6o+C#7o');
    const said = [...svg.matchAll(/<text x="([\d.]+)" y="([-\d.]+)"[^>]*>\(([^)]+)\)</g)].map(([, x, y, pitch]) => ({
      x,
      y,
      pitch,
    }));
    expect(said.map(({ pitch }) => pitch)).toEqual(['A6', 'D6', 'B6', 'E6', 'C♯7', 'F♯6']);
    expect(new Set(said.map(({ x }) => x)).size).toBe(3);
    expect(new Set(said.map(({ y }) => y)).size).toBe(2);
  });

  test('a position stands over the fingers beside it that it would meet', () => {
    const { svg } = staff('1/16 B5 [II 3rd] D6 [I 3rd] C6 [5th] E6 C6 [5th]', 300);
    const fingers = [0xed11, 0xed12, 0xed13, 0xed14].flatMap((code) => places(svg, code));
    const words = [...svg.matchAll(/<text x="([\d.]+)" y="([-\d.]+)"[^>]*>(\d\w\w pos\.)</g)];
    expect(words.length).toBeGreaterThan(0);
    for (const [, x, y, text = ''] of words)
      for (const finger of fingers.filter((each) => Math.abs(each.x - Number(x)) < (text.length * 5) / 2))
        expect(finger.y).toBeGreaterThanOrEqual(Number(y));
  });

  test.each(['violin', 'viola', 'cello'])('the clef of the %s lies whole on every line, on paper too', (instrument) => {
    for (const { svg, height } of [
      staff(`instrument: ${instrument}\n1/4 D4`),
      ...drawSystems(passageOf(`instrument: ${instrument}\n1/4 D4`), { width: 500 }),
    ]) {
      for (const code of [0xe050, 0xe05c, 0xe062]) {
        const [, top, , bottom] = OUTLINES.get(code)!.box;
        for (const { y } of places(svg, code)) {
          const [down = 0] = [...svg.matchAll(/<g transform="translate\(0 (\S+)\)"/g)].map(([, by]) => Number(by));
          expect(down + y + top * 0.04).toBeGreaterThanOrEqual(0);
          expect(down + y + bottom * 0.04).toBeLessThanOrEqual(height);
        }
      }
    }
  });

  test('nothing is printed that nobody wrote: no tempo, no dynamic', () => {
    const { svg } = staff('1/4 B4 C5 p D5');
    expect(svg).not.toContain('= 96');
    expect(places(svg, 0xe521)).toEqual([]);
    expect(places(svg, 0xe520)).toHaveLength(1);
    expect(places(staff('1/4 mf B4 C5').svg, 0xe521)).toHaveLength(1);
  });
});

describe('positions', () => {
  test('a hand that opens in its place is not told its position again', () => {
    const { events, board } = passageOf('instrument: cello\ntempo: 1/4 = 80\nkey: F major\n1/8 A3 Bb3 C4 D4 C4 Bb3 A3 G3');
    const told = [...fingeringMarks(events, board, 'changes').values()].flatMap(({ position }) => position || []);
    expect(told.filter((name, index) => name === told[index - 1])).toEqual([]);
    expect(events.map(({ position }) => position)).toContain('1st position, first finger back');
  });
});
