import { describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { resolve } from '../../server/passage/resolve';
import { accountOf } from '../../server/scene/account';
import { buildScene, sceneAlternative } from '../../server/scene/scene';
import { unplayableWords } from '../../server/scene/unplayable-words';
import { centsWords, often, printedPitch, spokenPitch } from '../../server/scene/words';
import { alternatives } from '../../server/solver/alternatives';
import { createSolver } from '../../server/solver/solve';
import { lighthouse } from './lighthouse';
import { passageOf, sceneOf } from './solved';

describe('scene', () => {
  const text =
    'passage: Lighthouse\ntempo: 1/4 = 96\nmeter: 4/4\n> Full bows.\n1/4 D6o E5<>A5 [II 1-4] 1/8 slur(D5 F#5) rest A5o+E6o |\n\npassage: Harbour\n1/4 G5\n';
  const scene = sceneOf(text);

  test('is plain data: through JSON and back nothing is lost', () => {
    expect(JSON.parse(JSON.stringify(scene))).toEqual(scene);
  });

  test('every event points at its own characters', () => {
    const lines = text.split('\n');
    const words = scene.passages.flatMap(({ events }) =>
      events.map(({ range }) => lines[range.start.line]!.slice(range.start.character, range.end.character)),
    );
    expect(words).toEqual(['D6o', 'E5<>A5 [II 1-4]', 'D5', 'F#5', 'A5o+E6o', 'G5']);
  });

  test('knows what the text said of time', () => {
    const [first] = scene.passages;
    expect(first!.events.map(({ duration }) => duration)).toEqual(['1/4', '1/4', '1/8', '1/8', '1/8']);
    expect(first!.bars[0]!.pieces.map(({ length, event }) => `${event ?? 'rest'} ${length}`)).toEqual([
      '0 1/4',
      '1 1/4',
      '2 1/8',
      '3 1/8',
      'rest 1/8',
      '4 1/8',
    ]);
    expect(first!.events.map(({ silence }) => silence)).toEqual([0, 0, 0, 0.3125, 0]);
    expect(first!.events.map(({ slurred }) => slurred)).toEqual([false, false, true, false, false]);
    expect(first!.events[4]!.onset).toBeCloseTo((60 / 96) * 3.5, 6);
    expect(first!.bars[0]).toMatchObject({ number: 1, firstEvent: 0, endEvent: 5, meter: '4/4', length: '1' });
    expect(first!.instructions).toEqual([{ bar: 1, text: 'Full bows.' }]);
  });

  test('a rest is as long as it is written, wherever it stands and whatever the tempo', () => {
    const pieces = (of: string) =>
      sceneOf(of).passages[0]!.bars.map((bar) =>
        bar.pieces.map(({ length, event }) => (event === undefined ? `r${length}` : length)),
      );
    expect(pieces('meter: 4/4\n1/4 rest D5 D5 D5 | 1/2 rest D5 ||')).toEqual([
      ['r1/4', '1/4', '1/4', '1/4'],
      ['r1/2', '1/2'],
    ]);
    expect(pieces('meter: 2/4\ntempo: 1/4 = 120\n1/4 D5 D5 |\ntempo: 1/4 = 60\n1/4 rest D5 |\n1/2 rest ||')).toEqual([
      ['1/4', '1/4'],
      ['r1/4', '1/4'],
      ['r1/2'],
    ]);
    expect(pieces('meter: 3/4\n1/4 D5 | 1/4 rest D5 1/11 D5 D5 1/4 rest 3/44 D5 |')).toEqual([
      ['1/4'],
      ['r1/4', '1/4', '1/11', '1/11', 'r1/4', '3/44'],
    ]);
  });

  test('two notes at once that open the hand beyond what is comfortable bring the caution as one note’s two fingers do', () => {
    const wide = sceneOf('1/4 B3 [IV 1]+D5 [III 4]').passages[0]!;
    expect(wide.events[0]!.terms.map(({ name }) => name)).toContain('stretch');
    expect(wide.caution).toContain('Pain means stop');
    expect(sceneOf('1/4 A4 D6o').passages[0]!.caution).toBeUndefined();
  });

  test('decodes the printed fourth harmonic', () => {
    const note = scene.passages[0]!.events[1]!.notes[0]!;
    expect(note).toMatchObject({ string: 'II', kind: 'artificial', partial: 4, sounding: 'E7', interval: 'fourth' });
    expect(note.touch!.fraction).toBe('1/4');
  });

  test('another way carries the solver’s number and a label a player can read', () => {
    const solution = createSolver().solve(resolve(parse('1/4 D6o')).passages[0]!);
    const all = alternatives(solution, 0).map((each, index) => sceneAlternative(each, index, solution.passage.events[0]!.spec));
    expect(all.length).toBeGreaterThan(1);
    for (const [index, each] of all.entries()) {
      expect(each.index).toBe(index);
      expect(each.label).toMatch(
        /^(I|II|III|IV) (open|natural \d\/\d, finger \w|stopped, finger \w|[a-z -]+ harmonic, fingers \w-\w)$/,
      );
      expect(each.extraCost).toBeGreaterThanOrEqual(0);
    }
  });

  test('a solution seen before gives the same passage, so that nothing is worked out twice', () => {
    const solution = createSolver().solve(resolve(parse('1/4 D6o')).passages[0]!);
    expect(buildScene('a', 2, [solution]).passages[0]).toBe(buildScene('a', 1, [solution]).passages[0]);
  });

  test('terms are the event’s own, dearest first', () => {
    for (const event of scene.passages[0]!.events) {
      const nats = event.terms.map((term) => term.nats);
      expect([...nats].sort((a, b) => b - a)).toEqual(nats);
    }
  });

  test('nodes lie at their fractions of the string, on every string', () => {
    const { board } = scene.passages[0]!;
    for (const { k, n, mm, tolerance } of board.nodes) {
      expect(mm / board.length).toBeCloseTo(k / n, 12);
      expect(tolerance).toBeGreaterThan(0);
    }
    expect(board.nodes.filter(({ k, n }) => k === 1 && n === 4).map(({ sounding }) => sounding)).toEqual([
      'E7',
      'A6',
      'D6',
      'G5',
    ]);
  });
});

describe('account', () => {
  test('says where, what, how, how far, how sure', () => {
    const { account } = lighthouse().events[5]!;
    for (const part of [
      'Bar 1, beat 3 1/2',
      'E 7',
      'string II',
      'fourth harmonic',
      'stop E 5 with the first finger',
      'touch A 5 with the fourth finger',
      '3.2 mm to spare',
      'out 19 times in 20',
    ]) {
      expect(account).toContain(part);
    }
  });

  test('every event of every kind has one, with no unfilled gap', () => {
    for (const { account } of lighthouse().events) expect(account).toMatch(/^Bar \d+, beat .+\.$/s);
    for (const { account } of lighthouse().events) expect(account).not.toMatch(/undefined|NaN|null/);
  });

  test('of an event that cannot be played says why', () => {
    const passage = passageOf('1/4 C2');
    expect(passage.events[0]!.account).toContain('No string of this instrument can sound it');
    expect(passage.events[0]!.notes).toEqual([]);
  });

  test('of a rest is a rest', () => {
    const { account: _, ...facts } = { ...lighthouse().events[0]!, notes: [] };
    expect(accountOf(facts)).toBe('Bar 1, beat 1: rest.');
  });
});

test('strain past comfortable is cautioned, and only then', () => {
  expect(passageOf('1/4 A3<>E4 [IV fifth]').caution).toMatch(/Pain means stop.*teacher or a clinician/);
  expect(passageOf('1/4 B4 C5').caution).toBeUndefined();
});

describe('words', () => {
  test.each([
    ['F#6', 'F♯6', 'F sharp 6'],
    ['Bb3', 'B♭3', 'B flat 3'],
    ['C##6', 'C♯♯6', 'C double sharp 6'],
    ['A4', 'A4', 'A 4'],
  ])('%s is printed %s and said %s', (pitch, printed, spoken) => {
    expect(printedPitch(pitch)).toBe(printed);
    expect(spokenPitch(pitch)).toBe(spoken);
  });

  test('a chance is never shown as certain unless it is', () => {
    expect([1, 0.99, 0.97, 0.52, 0.1, 0.00001].map(often)).toEqual([
      'nearly always',
      'nearly always',
      '19 times in 20',
      '5 times in 10',
      'once in 10',
      'hardly ever',
    ]);
  });

  test('cents have their sign, and none that nobody can hear', () => {
    expect([1.955, -13.686, 0.3, 1].map(centsWords)).toEqual(['+2 cents', '-14 cents', '', '+1 cent']);
  });

  test('every reason of a unplayable has words', () => {
    const reasons = [
      { kind: 'out-of-range', note: 0 },
      { kind: 'no-harmonic', note: 0 },
      { kind: 'hints', note: 0, hints: ['string', 'finger'] },
      { kind: 'stretch', fingers: ['1', '4'], asked: 118, reach: 105 },
      { kind: 'same-string' },
      { kind: 'not-neighbours' },
      { kind: 'fingers' },
      { kind: 'held' },
    ] as const;
    for (const reason of reasons) {
      const words = unplayableWords({ event: 0, reason, relaxations: [{ kind: 'octaves', note: 0, by: -1 }] });
      expect(words).toMatch(/^[A-Z].*\. It could be played an octave lower\.$/);
    }
  });
});
