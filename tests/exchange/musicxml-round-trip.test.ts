import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { importScore } from '../../server/exchange/import-score';
import { writeMusicXml } from '../../server/exchange/musicxml/write';
import type { PassageEvent } from '../../server/passage/passage';
import { resolve } from '../../server/passage/resolve';
import type { Solution } from '../../server/solver/solution';
import { createSolver } from '../../server/solver/solve';
import { demands, passageOf, passagesOf, passageText } from './passages';
import { expectRoundTrip } from './round-trip';
import { schema, type Validate } from './schema';

let validate: Validate | undefined;
beforeAll(() => {
  validate = schema();
});

describe('text to MusicXML to text', () => {
  test('keeps all that the passage asks for, and is valid', () => {
    fc.assert(
      fc.property(passageText, (text) => expectRoundTrip(text, validate)),
      { seed: 6, numRuns: 50 },
    );
  }, 40_000);

  test('done twice changes nothing more', () => {
    fc.assert(
      fc.property(passageText, (text) => {
        const once = importScore(writeMusicXml(passageOf(text))).text;
        expect(importScore(writeMusicXml(passageOf(once))).text).toBe(once);
      }),
      { seed: 60, numRuns: 40 },
    );
  }, 40_000);

  test.each([
    ['naturals and artificials under one hand', 'harmonics: all\n1/4 D6 E6 F#6 G6 A6 B6 C#7 D7 |'],
    ['stopped, open and allowed harmonics', 'harmonics: allowed\n1/8 G3 D4 A4 E5 G4 A5 D6 E6 |'],
    ['printed forms, held and slid', '1/4 E5<>A5_ E5<>A5 slide <>A4 = A5 A4<>E5 |'],
    ['double stops', '1/2 D6o+A6o G3+D4 | D4_+A4_ D4+A4 |'],
    ['durations that need ties', '5/16 D6o 1/12 E6o F#6o A6o 7/16 D5 1/20 E5 F5 G5 A5 B5 |'],
    ['a cello, with the thumb', 'instrument: cello\n1/4 A4 D4o A4o E4<>A4 |'],
  ])('with the chosen fingering, the passage comes back pinned to it: %s', (_, text) => {
    const solver = createSolver();
    const passage = passageOf(text);
    const solution = solver.solve(passage);
    expect(solution.unplayables).toEqual([]);
    const xml = writeMusicXml(passage, { solution });
    expect(validate?.(xml) ?? []).toEqual([]);
    const back = importScore(xml);
    expect(back.losses).toEqual([]);
    const pinned = passageOf(back.text);
    expect(demands(pinned, { fingering: false, written: false })).toEqual(demands(passage, { fingering: false, written: false }));
    expect(chosen(solver.solve(pinned))).toEqual(chosen(solution));
  });
});

/** How every sound is played; a sound held on counts once. */
function chosen(solution: Solution): unknown {
  return solution.events.flatMap((event, i) => {
    const { spec } = solution.passage.events[i] as PassageEvent;
    return event && spec.held.length < spec.notes.length
      ? [
          event.fingering.ways.map((w) => [
            w.stringName,
            w.kind,
            w.partial,
            w.stop?.finger,
            w.touch?.finger,
            w.touch?.k,
            w.hz.toFixed(3),
          ]),
        ]
      : [];
  });
}

test('a lighthouse study survives word for word, but for what MusicXML says more plainly', () => {
  const text = `instrument: violin

passage: Lighthouse study, bars 1-4
key: D major
meter: 4/4
tempo: 1/4 = 96
> Full bows. Lift the touching finger as soon as the note has spoken.
1/8 D5 F#5 A5 D6o slur(1/16 E6o F#6o G6o A6o) 1/4 D7o |
1/4 E5<>A5 = E7 [II 1-4] G5<>D6 = D7 [I fifth] 1/2 D6o+A6o ||
`;
  expect(resolve(parse(text)).problems).toEqual([]);
  expect(importScore(writeMusicXml(passageOf(text))).text).toBe(text);
});

test('whatever text there is, each of its passages is a valid score that reads again', () => {
  const word = fc.constantFrom(
    ...'1/4 1/8 1/12 5/16 1/7 3/1 D6o F#5 Bb3 E5<>A5 <>A4 C2 rest | || |: :| slur( up( ) + _ [II] [1-4] [at 1/3] slide pp ff = E7 x'.split(
      ' ',
    ),
    '\nmeter: 3/4\n',
    '\ntempo: 1/4 = 50\n',
    '\n> Lift\n',
    '\npassage: Next\n',
    '\nharmonics: all\n',
    '\n',
  );
  fc.assert(
    fc.property(fc.array(word, { maxLength: 40 }), (words) => {
      for (const passage of passagesOf(words.join(' '))) {
        const xml = writeMusicXml(passage);
        expect(validate?.(xml) ?? []).toEqual([]);
        const sounds = passage.events.filter((e) => e.spec.notes.length > 0).length;
        // Without a name and without music there is nothing to come back.
        const back = passagesOf(importScore(xml).text)[0]?.events.length ?? 0;
        expect(back).toBeGreaterThanOrEqual(sounds);
      }
    }),
    { seed: 62, numRuns: 80 },
  );
}, 40_000);
