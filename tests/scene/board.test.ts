import { describe, expect, test } from 'vitest';
import { contactPoint } from '../../server/instrument/bow';
import { soundingLength } from '../../server/instrument/places';
import { tolerance } from '../../server/instrument/tolerance';
import { drawBoard, drawBoardLayers } from '../../server/scene/board/board';
import { frameOf, reachOfPassage } from '../../server/scene/board/frame';
import { legend } from '../../server/scene/board/legend';
import { LIGHTHOUSE, lighthouse, othersOf, solvedByHand } from './lighthouse';
import { attribute, elements, xy } from './markup';
import { passageOf } from './solved';

const passage = lighthouse();
const { board } = passage;
const LYING = { scale: 4 } as const;
const UPRIGHT = { scale: 3, upright: true } as const;
const draw = (event: number, options = LYING as { scale: number; upright?: boolean }) =>
  drawBoard(passage, event, { ...options, next: false }).svg;

describe('the drawing is the string in millimetres', () => {
  // 1/4 of a 328 mm string lies 82 mm from the nut: exact arithmetic (the string length is model.md's violin).
  test.each([
    ['1/2', 164],
    ['1/4', 82],
    ['1/5', 65.6],
    ['2/5', 131.2],
  ])('node %s is drawn %d mm from the nut, its slot as long as its tolerance either side', (node, mm) => {
    const [k, n] = node.split('/').map(Number) as [number, number];
    const slots = elements(draw(0), 'rect', 'data-node', node);
    expect(slots).toHaveLength(4);
    for (const slot of slots) {
      const x = Number(attribute(slot, 'x'));
      const width = Number(attribute(slot, 'width'));
      expect(x + width / 2).toBeCloseTo(mm, 2);
      expect(width / 2).toBeCloseTo(tolerance(328, k, n), 2);
    }
  });

  test('no slot and no room of a finger goes past the end of the board', () => {
    const short = drawBoard(passage, 0, { ...LYING, next: false, end: 85 }).svg;
    const slots = elements(short, 'rect', 'data-node', '1/4');
    expect(slots).toHaveLength(4);
    for (const slot of slots) expect(Number(attribute(slot, 'x')) + Number(attribute(slot, 'width'))).toBeLessThanOrEqual(85);
  });

  test('upright it is the same drawing turned: mm run down', () => {
    const slot = elements(draw(0, UPRIGHT), 'rect', 'data-node', '1/4')[0]!;
    expect(Number(attribute(slot, 'y')) + Number(attribute(slot, 'height')) / 2).toBeCloseTo(82, 2);
  });

  test('a stopping finger ends the string with its flat edge and is as long as the contact', () => {
    const [thimble] = elements(draw(0), 'path', 'class', 'pw-fill-stop pw-thimble');
    const stop = passage.events[0]!.notes[0]!.stop!;
    const points = xy(attribute(thimble!, 'd'));
    expect(Math.max(...points.map(({ x }) => x))).toBeCloseTo(stop.mm, 2);
    expect(Math.min(...points.map(({ x }) => x))).toBeCloseTo(stop.mm - board.contact, 2);
    // What is left of the string sounds.
    expect(soundingLength(board.length, stop.mm)).toBeCloseTo(passage.events[0]!.notes[0]!.length, 6);
  });

  test('a touching finger lies centred on the node, as long as the contact', () => {
    const ring = elements(draw(5), 'ellipse', 'data-mm')[0]!;
    const note = passage.events[5]!.notes[0]!;
    expect(Number(attribute(ring, 'cx'))).toBeCloseTo(note.touch!.mm, 2);
    expect(2 * Number(attribute(ring, 'rx'))).toBeCloseTo(board.contact, 6);
    // A fourth harmonic is touched a quarter of the way from stop to bridge.
    expect(note.touch!.mm - note.stop!.mm).toBeCloseTo((328 - note.stop!.mm) / 4, 6);
  });

  test('the band of room reaches as far as the tolerance on either side', () => {
    for (const event of [2, 3, 5, 6]) {
      const note = passage.events[event]!.notes[0]!;
      const band = elements(draw(event), 'path', 'data-from')[0]!;
      expect(Number(attribute(band, 'data-from'))).toBeCloseTo(note.touch!.mm - note.tolerance!, 2);
      expect(Number(attribute(band, 'data-to'))).toBeCloseTo(note.touch!.mm + note.tolerance!, 2);
      const across = xy(attribute(band, 'd')).map(({ x }) => x);
      expect(Math.max(...across) - Math.min(...across)).toBeCloseTo(2 * note.tolerance!, 2);
    }
  });

  test('the sounding string stands still at every point of division, and under the touching finger', () => {
    for (const event of [2, 3, 4, 5, 6]) {
      const note = passage.events[event]!.notes[0]!;
      const motion = elements(draw(event), 'path', 'class', 'pw-line-touch pw-motion')[0]!;
      const still = xy(attribute(motion, 'd').replace(/C[^M]*/g, '')).map(({ x }) => x);
      const start = 328 - note.length;
      for (const x of still) {
        const loops = (x - start) / (note.length / note.partial);
        expect(loops).toBeCloseTo(Math.round(loops), 3);
      }
      expect(still.some((x) => Math.abs(x - note.touch!.mm) < 0.01)).toBe(true);
    }
  });

  test('strings lie as far apart as on the instrument, I first', () => {
    const frame = frameOf(board, { scale: 4, upright: false, end: 328 });
    for (const mm of [0, 164, 328]) {
      const gap = frame.across(1, mm) - frame.across(0, mm);
      expect(gap).toBeCloseTo(board.spacing.nut + ((board.spacing.bridge - board.spacing.nut) * mm) / 328, 6);
      expect(frame.at(mm, frame.across(0, mm)).y).toBeLessThan(frame.at(mm, frame.across(3, mm)).y);
    }
    const upright = frameOf(board, { scale: 4, upright: true, end: 328 });
    expect(upright.at(82, upright.across(0, 82)).x).toBeGreaterThan(upright.at(82, upright.across(3, 82)).x);
  });

  test('the hand reaches from the first finger to the farthest', () => {
    const hand = elements(draw(5), 'g', 'data-from')[0]!;
    expect(Number(attribute(hand, 'data-from'))).toBeCloseTo(passage.events[5]!.handMm!, 2);
    expect(Number(attribute(hand, 'data-to'))).toBeCloseTo(passage.events[5]!.notes[0]!.touch!.mm, 2);
  });
});

describe('the bow', () => {
  test('meets the string where the model says, and only where the drawing reaches it', () => {
    for (const event of [0, 2, 5]) {
      const note = passage.events[event]!.notes[0]!;
      const bow = elements(drawBoard(passage, event, { ...LYING, end: 328 }).svg, 'g', 'data-best')[0]!;
      const string = board.strings[note.stringIndex]!;
      const { best } = contactPoint({ family: 'violin', string, length: note.length, partial: note.partial });
      expect(Number(attribute(bow, 'data-best'))).toBeCloseTo(best, 2);
      // Never on the node of the partial itself, where it cannot sound.
      expect(best).toBeLessThan(note.length / note.partial);
    }
    expect(draw(0)).not.toContain('pw-bow');
  });
});

describe('what is told apart', () => {
  test('stopped, touched and open differ in shape, not only in colour', () => {
    const shapes = [0, 2, 1].map((event) => draw(event).match(/pw-(thimble|ring|pennant)/)?.[1]);
    expect(shapes).toEqual(['thimble', 'ring', 'pennant']);
    expect(draw(0)).toContain('<path');
    expect(elements(draw(2), 'ellipse', 'class').length).toBeGreaterThan(0);
  });

  test('what comes next and another choice are outlines, dashed and dotted', () => {
    expect(drawBoard(passage, 2, LYING).svg).toMatch(/pw-next[^>]*>.*stroke-dasharray="1.2 0.8"/);
    const [, other] = othersOf(solvedByHand(LIGHTHOUSE), 2);
    expect(drawBoard(passage, 2, { ...LYING, other }).svg).toMatch(/pw-other[^>]*>.*stroke-dasharray="0.1 1"/);
  });

  test('fingers that stay where they are have no ghost', () => {
    const same = passageOf('1/4 D6o [III] D6o [III] D6o [III]');
    expect(drawBoard(same, 0, LYING).svg).not.toContain('pw-next');
  });

  test('the legend shows each mark once, drawn as on the board', () => {
    const marks = legend(board)
      .map(({ svg }) => svg)
      .join('');
    for (const mark of ['pw-thimble', 'pw-ring', 'pw-room', 'pw-pennant', 'pw-next']) expect(marks).toContain(mark);
  });

  test('an event that cannot be played says so on the board', () => {
    expect(draw(11)).toContain('can&#39;t be played');
  });
});

describe('the drawing as a file', () => {
  test('is well formed, needs no style sheet, runs no script', () => {
    for (const event of passage.events.keys()) {
      const svg = drawBoard(passage, event, UPRIGHT).svg;
      expect(svg).not.toMatch(/NaN|undefined|Infinity|<style|<script| style=| on\w+=/);
      // Every painted shape carries its own colour beside its class.
      for (const shape of svg.match(/<(path|rect|ellipse|text)[^>]*class="[^"]*"[^>]*>/g) ?? [])
        expect(shape).toMatch(/fill=|stroke=/);
    }
  });

  test('reaches far enough for every finger, never past the bridge', () => {
    const end = reachOfPassage(passage);
    const fingers = passage.events.flatMap(({ notes }) => notes);
    expect(end).toBeGreaterThan(Math.max(...fingers.map(({ stop, touch }) => Math.max(stop?.mm ?? 0, touch?.mm ?? 0))));
    expect(drawBoard(passage, 0, { ...LYING, end: 9999 }).width).toBeLessThan((328 + 30) * 4 + 120);
  });

  test('layers hold every event, one shown', () => {
    const { svg } = drawBoardLayers(passage, LYING);
    const layers = elements(svg, 'g', 'data-event');
    expect(layers).toHaveLength(passage.events.length);
    expect(layers.filter((layer) => attribute(layer, 'visibility') === 'hidden')).toHaveLength(passage.events.length - 1);
  });
});

describe('common practice, no source — where the positions are, and where the neck ends', () => {
  const cello = passageOf('instrument: cello\n1/4 E3 G4 A4');

  test('the first finger of third position of a violin lies a fourth up: a quarter of the string', () => {
    const third = /<text[^>]*>(?=3rd<)/.exec(draw(0))![0];
    // A tempered fourth; the pure one is at 82 mm.
    expect(Number(attribute(third, 'x'))).toBeCloseTo(328 * (1 - 2 ** (-5 / 12)), 1);
    expect(draw(0)).not.toContain('pw-neck');
  });

  test('the neck of a cello ends at fourth position, a tempered fifth up: nearly a third of the string', () => {
    const { svg } = drawBoard(cello, 1, { ...LYING, scale: 1 });
    const fourth = /<text[^>]*>(?=4th<)/.exec(svg)![0];
    const end = /<path[^>]*pw-neck[^>]*>/.exec(svg)![0];
    expect(Number(attribute(fourth, 'x'))).toBeCloseTo(690 * (1 - 2 ** (-7 / 12)), 1);
    expect(Number(/^M(\S+)/.exec(attribute(end, 'd')!)![1])).toBeCloseTo(690 * (1 - 2 ** (-7 / 12)), 1);
  });
});
