import { describe, expect, it } from 'vitest';
import { fingerOffset, touchToStop } from '../../server/instrument/offset';
import { pitchName, semitone } from '../../server/music/pitch';
import { ceiling } from '../../server/solver/ceiling';
import type { Solution } from '../../server/solver/solution';
import type { Way } from '../../server/solver/way';
import { shorthand } from '../support/reading';
import { exercise, LIGHTHOUSE, made } from './made';

function ways({ events }: Solution): readonly (readonly Way[])[] {
  return events.flatMap((event) => (event?.fingering.ways.length ? [event.fingering.ways] : []));
}

/** Each note and how it is played. */
function figures(solution: Solution): readonly string[] {
  return ways(solution).map((event) => event.map((way) => `${pitchName(way.sounding)} ${shorthand(way)}`).join(' + '));
}

describe('hard spots', () => {
  const spots = made(LIGHTHOUSE, ['hard-spots'], 0.7);

  it('begin with the hardest note of the passage, its lead-in before it and its fingering kept', () => {
    const { source } = spots;
    const solution = source.solutions[0]!;
    const hardest = figures(solution)[solution.hardest]!;
    const { solution: spot, told, passage } = exercise(spots, 'Hard spot 1: ');
    const { sounding } = solution.events[solution.hardest]!.fingering.ways[0]!;
    expect(passage.title).toContain(`Hard spot 1: ${pitchName(sounding).replace('#', '♯')} in bar `);
    const played = figures(spot);
    const at = played.indexOf(hardest);
    expect(at).toBeGreaterThan(0);
    const before = figures(solution).slice(solution.hardest - at, solution.hardest);
    expect(played.slice(0, at)).toEqual(before);
    const share = Math.round((100 * solution.events[solution.hardest]!.cost) / solution.cost);
    expect(told[0]).toContain(`${share} % of the effort and risk`);
  });

  it('stop before the note to set the fingers, and go from slow to the written tempo', () => {
    const { passage } = exercise(spots, 'Hard spot 1: ');
    const { events } = passage;
    const { solutions } = spots.source;
    const { sounding } = solutions[0]!.events[solutions[0]!.hardest]!.fingering.ways[0]!;
    const stop = events.findIndex(({ spec }) => spec.rest > 0);
    expect(events[stop + 1]!.spec.notes[0]!.asked).toMatchObject({
      kind: 'sounding',
      pitch: { letter: sounding.letter, octave: sounding.octave },
    });
    expect([...new Set(events.map(({ tempo }) => tempo.bpm))]).toEqual([36, 72]);
  });

  it('are not found twice where the passage repeats itself', () => {
    const repeated = made(`${LIGHTHOUSE.replace('||', '|')}${LIGHTHOUSE.split('\n').slice(4).join('\n')}`, ['hard-spots']);
    const titles = repeated.again.solutions.map(({ passage }) => passage.title.replace(/^.*: | in .*$/g, ''));
    expect(new Set(titles).size).toBe(titles.length);
  });
});

describe('the tempo ladder', () => {
  // Shifts of an octave up and down one string: what is safe depends on the tempo.
  const shifts =
    'passage: Shifts\nmeter: 4/4\ntempo: 1/4 = 200\n1/16 G4 [III 1] A5o [III at 2/3] G4 [III 1] A5o [III at 2/3] 3/4 G4 ||\n';

  it('ends at the ceiling that the solver finds for these bars, and climbs without a step down', () => {
    const { again, source } = made(shifts, ['tempo-ladder'], 0.9);
    const top = ceiling(source.solutions[0]!, 0.9)!;
    const rungs = [...new Set(again.solutions[0]!.passage.events.map(({ tempo }) => tempo.bpm))];
    expect(top.bpm).toBeLessThan(200);
    expect(rungs.at(-1)).toBe(top.bpm);
    expect([...rungs].sort((a, b) => a - b)).toEqual(rungs);
    expect(rungs.length).toBeGreaterThan(3);
  });

  it('goes no further than the written tempo where that is safe', () => {
    const slow = made(shifts.replace('200', '40'), ['tempo-ladder'], 0.5);
    expect(ceiling(slow.source.solutions[0]!, 0.5)!.bpm).toBeGreaterThan(40);
    expect(slow.again.solutions[0]!.passage.events.at(-1)!.tempo.bpm).toBe(40);
  });

  it('rests the hand for a bar between any two rungs', () => {
    const { passage } = exercise(made(shifts, ['tempo-ladder']), 'Tempo ladder');
    const last = passage.events.filter(({ tempo }, index, all) => tempo.bpm !== all[index + 1]?.tempo.bpm);
    for (const event of last.slice(0, -1)) expect(event.spec.rest).toBeCloseTo((4 * 60) / event.tempo.bpm, 6);
  });
});

describe('rhythms', () => {
  it.each([
    ['4/4', 'D5 E5 F#5 G5 A5 B5 C#6 D6'],
    ['6/8', 'D5 E5 F#5 G5 A5 B5'],
  ])('leave every bar of %s as long as it was, and every note in its place', (meter, notes) => {
    const { again, source } = made(`passage: Even\nmeter: ${meter}\n1/8 ${notes} | ${notes} ||\n`, ['rhythms']);
    const { passage } = again.solutions[0]!;
    const written = source.solutions[0]!.passage.bars[0]!.length;
    for (const bar of passage.bars) expect(bar.length.toFraction()).toBe(written.toFraction());
    const order = (solution: Solution) => ways(solution).map(([way]) => semitone(way!.sounding));
    const once = order(source.solutions[0]!);
    const all = order(again.solutions[0]!);
    expect(all.length % once.length).toBe(0);
    for (let at = 0; at < all.length; at += once.length) expect(all.slice(at, at + once.length)).toEqual(once);
  });

  it('are dotted, reversed, in groups, and even again', () => {
    const { again } = made('passage: Even\nmeter: 4/4\n1/8 D5 E5 F#5 G5 A5 B5 C#6 D6 ||\n', ['rhythms']);
    const { events } = again.solutions[0]!.passage;
    const lengths = [0, 1, 2, 3, 4].map((bar) => events.slice(bar * 8, bar * 8 + 4).map(({ duration }) => duration.toFraction()));
    expect(lengths).toEqual([
      ['3/16', '1/16', '3/16', '1/16'],
      ['1/16', '3/16', '1/16', '3/16'],
      ['1/4', '1/12', '1/12', '1/12'],
      ['1/12', '1/12', '1/12', '1/4'],
      ['1/8', '1/8', '1/8', '1/8'],
    ]);
  });

  it('come in groups of three where the meter does', () => {
    const { again } = made('passage: Even\nmeter: 6/8\n1/8 D5 E5 F#5 G5 A5 B5 ||\n', ['rhythms']);
    const { events } = again.solutions[0]!.passage;
    expect(events.slice(12, 15).map(({ duration }) => duration.toFraction())).toEqual(['1/4', '1/16', '1/16']);
  });
});

describe('touch and stop', () => {
  it('alternates the harmonic and the stopped note of one finger on one spot, and names the mm between them', () => {
    const drill = made('D6o [III at 1/4 1] G4 [III 1]\n', ['touch-and-stop']);
    const { solution, told, passage } = exercise(drill, 'Touch and stop: D6 and G4 on III');
    const played = ways(solution).map(([way]) => way!);
    for (const way of played) expect([way.stringName, (way.touch ?? way.stop)!.finger]).toEqual(['III', 1]);
    // The last bars leave no note twice: touched, stopped, touched...
    expect(played.map(({ kind }) => kind).join(' ')).toContain('natural stopped natural stopped');
    const { instrument } = passage.setup;
    const string = instrument.strings[2]!;
    const touch = played.find(({ kind }) => kind === 'natural')!.touch!;
    const stop = played.find(({ kind }) => kind === 'stopped')!.stop!;
    expect(Math.abs(touch.mm - stop.mm)).toBeLessThan(4);
    const offset = fingerOffset(instrument, string, stop.mm);
    expect(told[0]).toContain(`${offset.total.toFixed(1)} mm nearer the nut (${offset.edge.toFixed(1)} mm since its edge`);
    expect(told[0]).toContain(
      `${touchToStop(instrument, string, touch.mm, stop.mm).toFixed(1)} mm toward the nut from harmonic to`,
    );
  });
});

describe('reference notes', () => {
  it('pair each stopped note with a natural harmonic of the same pitch', () => {
    const { solution } = exercise(made('D5 [II 3] A5 [I 3] G5 [I 2]\n', ['reference-notes']), 'Reference notes');
    const played = ways(solution).map(([way]) => way!);
    for (let at = 0; at < played.length; at += 5) {
      const [harmonic, stopped] = [played[at]!, played[at + 1]!];
      expect([harmonic.kind, stopped.kind]).toEqual(['natural', 'stopped']);
      expect(Math.abs(1200 * Math.log2(harmonic.hz / stopped.hz))).toBeLessThan(10);
    }
    expect(played.map(({ sounding }) => sounding.letter).join('')).toBe('DDDDDAAAAAGGGGG');
  });
});

describe('every string', () => {
  /** Common practice, no source: the scale of D in harmonics lies under one hand, the same shape on each pair of strings. */
  it('carries the hand of the scale in harmonics over all pairs of strings, at the same places', () => {
    const { solution } = exercise(made(LIGHTHOUSE, ['every-string']), 'Every string: 1/4, 1/3, 2/5 and fourth');
    const shapes = [0, 1, 2].map((on) =>
      ways(solution)
        .slice(on * 5, on * 5 + 4)
        .map(([way]) => way!),
    );
    expect(shapes.map((shape) => shape.map(({ stringName }) => stringName).join(' '))).toEqual([
      'IV III IV IV',
      'III II III III',
      'II I II II',
    ]);
    for (const shape of shapes) {
      expect(shape.map(({ touch }) => `${touch!.k}/${touch!.n} ${touch!.finger}`)).toEqual(['1/4 1', '1/3 2', '2/5 3', '1/4 4']);
      for (const [note, { touch }] of shape.entries()) expect(touch!.mm).toBeCloseTo(shapes[0]![note]!.touch!.mm, -0.5);
    }
  });
});

describe('fourth or fifth', () => {
  it('gives the same sounding pitch with either interval between the fingers', () => {
    const { solution, told } = exercise(made(LIGHTHOUSE, ['fourth-or-fifth']), 'Fourth or fifth: E7');
    const played = ways(solution).map(([way]) => way!);
    expect(new Set(played.map(({ interval }) => interval))).toEqual(new Set(['fourth', 'fifth']));
    expect(new Set(played.map(({ sounding }) => semitone(sounding)))).toEqual(new Set([100]));
    const fifth = played.find(({ interval }) => interval === 'fifth')!;
    expect(told.join(' ')).toContain(`${(fifth.touch!.mm - fifth.stop!.mm).toFixed(0)} mm between the fingers`);
  });

  it('warns where the hand opens past comfortable, and rests there', () => {
    const { told, solution } = exercise(made(`hand: small\n${LIGHTHOUSE}`, ['fourth-or-fifth']), 'Fourth or fifth');
    expect(solution.events.some((event) => (event?.terms.stretch ?? 0) > 0)).toBe(true);
    expect(told.join(' ')).toMatch(/Pain means stop: rest, and ask a teacher or a clinician/);
    expect(told.join(' ')).toContain('In the silent bars let the arm hang');
    const silent = solution.passage.events.filter(({ spec }) => spec.rest >= 4);
    expect(silent).toHaveLength(2);
  });
});

describe('double stops', () => {
  it('come voice by voice, then together after a silence, then one held while the other comes in', () => {
    const drill = made('1/4 E6o [II]+B6o [I] D5\n', ['double-stops']);
    const { solution, passage } = exercise(drill, 'Double stop: E6 and B6');
    const played = ways(solution);
    expect(played.map(({ length }) => length)).toEqual([1, 1, 2, 2, 1, 2, 1, 2, 2]);
    expect(played[0]![0]!.sounding).toMatchObject({ letter: 'E' });
    expect(played[1]![0]!.sounding).toMatchObject({ letter: 'B' });
    // Silence before the first time together.
    expect(passage.events[1]!.spec.rest).toBeGreaterThan(0);
    // Held voices: E under B, then B over E.
    expect(passage.events.map(({ spec }) => spec.held.length)).toEqual([0, 0, 0, 0, 0, 1, 0, 1, 0]);
  });
});

describe('cautions', () => {
  it('stand in every exercise whose shapes open the hand beyond what is comfortable', () => {
    const { again } = made(`hand: small\n${LIGHTHOUSE}`);
    let wide = 0;
    for (const { events, passage } of again.solutions) {
      if (!events.some((event) => (event?.terms.stretch ?? 0) > 0)) continue;
      wide++;
      expect(passage.instructions.map(({ text }) => text).join(' ')).toMatch(/Pain means stop/);
    }
    expect(wide).toBeGreaterThan(1);
  });

  it('stand over long runs too', () => {
    const run = `passage: Run\nmeter: 4/4\ntempo: 1/4 = 60\n1/16 ${Array.from({ length: 16 }, (_, i) => ['D5', 'E5', 'F#5', 'G5'][i % 4]).join(' ')} ||\n`;
    expect(exercise(made(run, ['rhythms']), 'Rhythms').told.join(' ')).toMatch(/long run .* Pain means stop/);
  });
});

describe('the file', () => {
  it('says where it comes from, and puts settings that all share at its head', () => {
    const two = made(
      `instrument: viola 15in\nhand: 1-2 50, 1-3 74, 1-4 100\npitch: A4 = 442\npassage: Ebb\n1/4 D5 E5\npassage: Flood\n1/4 D6o E6o\n`,
    );
    const lines = two.text.split('\n');
    expect(lines.slice(0, 2)).toEqual(['title: Exercises for Ebb, Flood', '// Exercises made by Passagework from Ebb, Flood.']);
    const head = lines.slice(0, lines.indexOf(''));
    expect(head).toEqual(expect.arrayContaining(['instrument: viola 15in', 'hand: 1-2 50, 1-3 74, 1-4 100', 'pitch: A4 = 442']));
    expect(lines.filter((line) => line.startsWith('hand:'))).toHaveLength(1);
    expect(two.again.solutions.every(({ passage }) => /^(Ebb|Flood): /.test(passage.title))).toBe(true);
    expect(two.text).not.toMatch(/\b20\d\d\b/);
  });

  it('has nothing in it where there is nothing to practise', () => {
    expect(made('1/4 rest rest\n').text).toBe('');
    expect(made('1/4 D5 E5\n', ['double-stops']).counts).toEqual({ 'double-stops': 0 });
  });
});
