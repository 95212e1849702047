import { describe, expect, it } from 'vitest';
import { feelsLike, NODES, partialSemitones } from '../../server/instrument/nodes';
import { pitchName, semitone, spell } from '../../server/music/pitch';
import { alternatives } from '../../server/solver/alternatives';
import { ceiling, chanceAt, cleanAt } from '../../server/solver/ceiling';
import { EFFORT } from '../../server/solver/effort';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';
import { waysOf } from '../../server/solver/ways';
import { reading } from '../support/reading';
import { event, line, note, passage, setup } from './build';

const solve = (text: string, options: Parameters<typeof line>[1] = {}, made = setup()) =>
  createSolver().solve(passage(line(text, options), made));

/** «III 1/4 1», «III fourth G4 1-4», «II D5 3», «II 0»: one note as a player would say it. */
function said(solution: Solution): string[] {
  return solution.events.map((solved) =>
    (solved?.fingering.ways ?? [])
      .map(({ stringName, kind, interval, stop, touch }) => {
        if (kind === 'open') return `${stringName} 0`;
        if (kind === 'natural') return `${stringName} ${touch!.k}/${touch!.n} ${touch!.finger}`;
        if (kind === 'stopped') return `${stringName} ${pitchName(stop!.pitch)} ${stop!.finger}`;
        return `${stringName} ${interval} ${pitchName(stop!.pitch)} ${stop!.finger}-${touch!.finger}`;
      })
      .join(' + '),
  );
}

describe('alternatives that cost the same', () => {
  it('come in one order: of the same two fingers side by side, the lower on the lower string first', () => {
    const all = alternatives(createSolver().solve(passage([event([note('E5'), note('B5')])])), 0);
    const fingers = all.map(({ fingering, extraCost }) => ({
      extraCost,
      text: fingering.ways.map(({ stringName, stop }) => `${stringName}${stop?.finger}`).join('+'),
    }));
    const at = fingers.findIndex(({ text }) => text === 'II2+I3');
    expect(fingers[at + 1]).toEqual({ text: 'II3+I2', extraCost: fingers[at]!.extraCost });
  });
});

describe('common practice, no source — fingerings a player would choose', () => {
  it('plays the scale of D in harmonics under one hand in third position, the same shape on two pairs of strings', () => {
    const solution = solve('D6o E6o F#6o G6o A6o B6o C#7o D7o', { seconds: 0.625 });
    expect(said(solution)).toEqual([
      'III 1/4 1',
      'II 1/3 2',
      'III 2/5 3',
      'III fourth G4 1-4',
      'II 1/4 1',
      'I 1/3 2',
      'II 2/5 3',
      'II fourth D5 1-4',
    ]);
    for (const solved of solution.events) expect(solved!.fingering.hand.position).toBe(3);
  });

  it('plays a scale in first position with open strings, and leaves it only where the top string runs out', () => {
    const scale = 'tempo: 1/4 = 96\nkey: G major\n1/8 G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4 C5 D5 E5 F#5 G5 A5 B5';
    expect(said(reading(scale).solutions[0]!).join(', ')).toBe(
      'IV 0, IV A3 1, IV B3 2, IV C4 3, III 0, III E4 1, III F#4 2, III G4 3, II 0, II B4 1, II C5 2, II D5 3, I 0, I F#5 1, I G5 2, I A5 3, I B5 4',
    );
  });

  it('takes a printed fourth harmonic with first and fourth finger', () => {
    const solution = createSolver().solve(passage([event([note('F5<>Bb5')])]));
    expect(said(solution)[0]).toMatch(/fourth F5 1-4$/);
    expect(pitchName(solution.events[0]!.fingering.ways[0]!.sounding)).toBe('F7');
  });

  it('hardly ever takes a third harmonic alone, but is free to in a double stop', () => {
    const alone = solve('G#6o');
    expect(said(alone)[0]).not.toMatch(/third/);
    const third = alternatives(alone, 0).find(({ fingering }) => fingering.ways[0]!.interval === 'third')!;
    expect(third.extraCost).toBeGreaterThan(4);
    const paired = createSolver().solve(passage([event([note('C4<>E4'), note('G4<>C5')])]));
    expect(paired.unplayables).toEqual([]);
    expect(paired.events[0]!.terms.loneThird).toBeUndefined();
  });

  it('bars both fingers over two strings for two fourth harmonics a fifth apart', () => {
    const solution = createSolver().solve(passage([event([note('F4<>Bb4'), note('C5<>F5')])]));
    const { fingering } = solution.events[0]!;
    expect(fingering.barred).toBe(true);
    expect(new Set(fingering.ways.map(({ stop, touch }) => `${stop?.finger}-${touch?.finger}`))).toEqual(new Set(['1-4']));
  });

  it('lets the thumb stop a fourth harmonic on the cello, high on the string', () => {
    const cello = setup({ family: 'cello' });
    const solution = createSolver().solve(passage([event([note('A4<>D5', { string: 1 })])], cello));
    expect(said(solution)).toEqual(['I fourth A4 T-3']);
    const { stop, touch } = solution.events[0]!.fingering.ways[0]!;
    // Derived: a quarter of half of 690 mm, and a little more, since a stiff string is stopped lower for the partial to be in tune.
    expect(touch!.mm - stop!.mm).toBeGreaterThan(86.25);
    expect(touch!.mm - stop!.mm).toBeLessThan(86.75);
    expect(
      createSolver().solve(passage([event([note('E6<>A6', { fingers: { stop: 'T', touch: 3 } })])])).unplayables,
    ).toHaveLength(1);
  });

  it('weighs a louder dynamic against softly speaking partials', () => {
    const soft = solve('F#6o', { dynamic: 'p' }).events[0]!;
    const loud = solve('F#6o', { dynamic: 'ff' }).events[0]!;
    expect(soft.fingering.ways[0]!.partial).toBe(5);
    expect(loud.fingering.ways[0]!.partial).toBeLessThan(5);
  });

  it('keeps to one string while it slides into a harmonic', () => {
    const slide = [event([note('E4')], { seconds: 0.6 }), event([note('A5o')], { slide: true, seconds: 0.6 })];
    const [from, to] = createSolver().solve(passage(slide)).events;
    expect(from!.fingering.ways[0]!.string).toBe(to!.fingering.ways[0]!.string);
  });

  it('keeps a held note as it was', () => {
    const held = [event([note('D5'), note('A4')]), event([note('D5'), note('B4')], { held: [[0, 0]] })];
    const [first, second] = createSolver().solve(passage(held)).events;
    expect(second!.fingering.ways[0]).toEqual(first!.fingering.ways[0]);
    expect(second!.speaks[0]).toBe(1);
  });
});

describe('ways of one note', () => {
  const made = setup();

  it('writes the place of every touched node as the pitch it feels like', () => {
    let seen = 0;
    for (const string of made.instrument.strings) {
      for (const { n } of NODES) {
        const text = `${pitchName(spell(semitone(string.pitch) + partialSemitones(n)))}o`;
        for (const { kind, stringName, touch } of waysOf(note(text), made)) {
          if (kind !== 'natural' || stringName !== string.name) continue;
          expect(semitone(touch!.pitch) - semitone(string.pitch)).toBe(feelsLike(touch!.k, touch!.n).semitones);
          seen++;
        }
      }
    }
    expect(seen).toBeGreaterThan(200);
  });

  it('takes finger 0 for the open string, and only that', () => {
    const [open] = createSolver().solve(passage([event([note('A4', { finger: 0 })])])).events;
    expect(open!.fingering.ways[0]!.kind).toBe('open');
    expect(createSolver().solve(passage([event([note('B4', { finger: 0 })])])).unplayables).toHaveLength(1);
  });
});

describe('chance and tempo', () => {
  it('is the product of the chances of all notes; minus its log is the placement, which counts less for stopped notes', () => {
    const solution = solve('A4 E6o C5 G5 D6o');
    const product = solution.events.flatMap((solved) => solved!.speaks).reduce((a, b) => a * b, 1);
    const together = solution.events.reduce((all, solved) => all * solved!.chance, 1) / product;
    expect(together).toBeLessThanOrEqual(1);
    expect(solution.clean).toBeCloseTo(product * together, 9);
    for (const solved of solution.events) {
      const { kind } = solved!.fingering.ways[0]!;
      const weight = kind === 'stopped' ? EFFORT.care : 1;
      expect(solved!.terms.placement ?? 0).toBeCloseTo(-weight * Math.log(solved!.speaks[0]!), 5);
    }
  });

  it('has terms that sum to the share of each event, and shares that sum to the cost', () => {
    const solution = solve('A4 E6o C5 A4+E5 G5 D6o E5<>A5');
    for (const solved of solution.events) {
      expect(Object.values(solved!.terms).reduce((a, b) => a + b, 0)).toBeCloseTo(solved!.cost, 9);
    }
    expect(solution.events.reduce((sum, solved) => sum + solved!.cost, 0)).toBeCloseTo(solution.cost, 9);
    expect(solution.hardest).toBe(solution.events.reduce((worst, one, i, all) => (one!.cost > all[worst]!.cost ? i : worst), 0));
  });

  it('falls with the tempo, and the ceiling is the last whole beat a minute above the chance', () => {
    const shifting = ['F#5', 'E6', 'F#5', 'A6'].map((text) => event([note(text, { string: 1, finger: 1 })], { seconds: 0.3125 }));
    const solution = createSolver().solve(passage(shifting));
    const clean = cleanAt(solution);
    expect(clean(1)).toBeCloseTo(solution.clean, 9);
    for (let times = 0.25; times < 4; times *= 1.3) expect(clean(times * 1.3)).toBeLessThanOrEqual(clean(times));
    const chance = clean(1.25);
    const { bpm } = ceiling(solution, chance)!;
    expect(clean(bpm / 96)).toBeGreaterThanOrEqual(chance);
    expect(clean((bpm + 1) / 96)).toBeLessThan(chance);
    expect(ceiling(solve('G6<>Bb6'), 0.99)).toBeUndefined();
  });

  it('tells the chance of one event at another tempo, none where it can not be played', () => {
    const solution = solve('E5 C9 E6');
    expect(chanceAt(solution, 0, 1)).toBeCloseTo(solution.events[0]!.chance, 9);
    expect(chanceAt(solution, 1, 1)).toBe(0);
    expect(chanceAt(solution, 2, 0.25)).toBeGreaterThanOrEqual(chanceAt(solution, 2, 4));
  });

  it('is never so fast that a note is too short for the fingers', () => {
    // Assumption of the model: 0.07 s a note. Open strings, which nothing else limits.
    const { bpm, limit } = ceiling(solve('A4 E5', { seconds: 0.1 }), 0.5)!;
    expect([bpm, limit]).toEqual([Math.floor((96 * 0.1) / 0.07), 'left hand']);
  });
});
