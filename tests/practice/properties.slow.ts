import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatPassage } from '../../grammar/format';
import { KINDS } from '../../server/practice/kinds';
import { playerLines } from '../../server/practice/player-lines';
import { rehearse } from '../../server/practice/rehearsal';
import { sourceBars } from '../../server/practice/source';
import { passageText } from '../exchange/passages';
import { made } from './made';

/** Bars of equal notes, which random lengths hardly ever give. */
const evenText = fc
  .tuple(
    fc.constantFrom('instrument: violin', 'instrument: cello', 'instrument: viola\nhand: large'),
    fc.constantFrom([8, '4/4'] as const, [6, '6/8'] as const),
    fc.array(fc.constantFrom('D5', 'E5', 'F#5', 'A5', 'D6o', 'E6o', 'A6o', 'G4', 'C5', 'rest', 'D5+A5'), {
      minLength: 24,
      maxLength: 24,
    }),
    fc.boolean(),
  )
  .map(([head, [count, meter], notes, slurred]) => {
    const bars = [0, 1, 2].map((bar) => notes.slice(bar * count, (bar + 1) * count));
    const written = bars.map(([first, ...others]) =>
      slurred ? `slur(${first} ${others.join(' ')})` : [first, ...others].join(' '),
    );
    return `${head}\npassage: Even\ntempo: 1/4 = 120\nmeter: ${meter}\n1/8 ${written.join(' | ')} ||\n`;
  });

/** What exercises must keep of the passage they are made from. */
function player({ solutions }: ReturnType<typeof made>['source'], index = 0) {
  const { instrument, hand, temperament, a4 } = solutions[index]!.passage.setup;
  const strings = instrument.strings.map(({ hz }) => hz.toFixed(6));
  return { name: instrument.name, length: instrument.length, strings, reaches: hand.reaches, temperament, a4 };
}

describe('exercises of any passage', () => {
  it('read without an error, can be played, keep instrument, tuning, hand and pitch, and come out the same again', () => {
    const total: Record<string, number> = {};
    fc.assert(
      fc.property(fc.oneof({ weight: 3, arbitrary: passageText }, { weight: 1, arbitrary: evenText }), (text) => {
        const exercises = made(text);
        for (const [kind, count] of Object.entries(exercises.counts)) total[kind] = (total[kind] ?? 0) + count;
        expect(made(text).text).toBe(exercises.text);
        if (exercises.text === '') return;
        const { again, source } = exercises;
        expect(again.problems.filter(({ severity }) => severity === 'error')).toEqual([]);
        expect(again.solutions.length).toBe(Object.values(exercises.counts).reduce((a, b) => a + b));
        for (const [index, solution] of again.solutions.entries()) {
          expect(solution.unplayables).toEqual([]);
          expect(solution.passage.title).not.toBe('');
          expect(solution.passage.instructions.length).toBeGreaterThan(0);
          expect(player(again, index)).toEqual(player(source));
          expect(solution.passage.key).toEqual(source.solutions[0]!.passage.key);
        }
        // As the formatter would leave it, so that a teacher's first save changes nothing.
        expect(formatPassage(again.tree)).toEqual([]);
      }),
      { numRuns: 16, seed: 20 },
    );
    // Every kind was among them, or the property would say nothing of it.
    expect(KINDS.filter(({ name }) => !total[name]).map(({ name }) => name)).toEqual([]);
  });

  it('none that is thought of has to be left out, and each is fingered as the passage is', () => {
    fc.assert(
      fc.property(fc.oneof(passageText, evenText), (text) => {
        const { source } = made(text, []);
        for (const solution of source.solutions) {
          const room = { settings: playerLines(source.resolved, solution.passage, {}), solver: source.solver };
          const thought = KINDS.flatMap((kind) =>
            kind.exercises({
              solution,
              bars: sourceBars(solution),
              chance: 0.8,
              rehearse: (exercise) => rehearse(exercise, room)?.solution,
            }),
          );
          for (const exercise of thought) {
            const played = rehearse(exercise, room)?.solution.events.flatMap((event) =>
              event?.fingering.ways.length ? [event.fingering.ways] : [],
            );
            const wanted = exercise.sections.flatMap(({ bars }) =>
              bars.flatMap(({ pieces }) => pieces.map(({ notes }) => notes)),
            );
            const notes = wanted.filter(({ length }) => length > 0);
            expect(played?.length, exercise.title).toBe(notes.length);
            for (const [index, event] of notes.entries()) {
              for (const [note, { way, held }] of event.entries()) {
                if (!way || held) continue;
                const { string, kind, stop, touch } = played![index]![note]!;
                expect({ string, kind, stop: stop?.finger, touch: touch?.finger }).toEqual({
                  string: way.string,
                  kind: way.kind,
                  stop: way.stop?.finger,
                  touch: way.touch?.finger,
                });
              }
            }
          }
        }
      }),
      { numRuns: 12, seed: 7 },
    );
  });
});
