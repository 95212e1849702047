import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { importScore } from '../../server/exchange/import-score';
import { pitchName } from '../../server/music/pitch';
import { resolve } from '../../server/passage/resolve';
import { passageOf } from './passages';
import { note, rest, score } from './score';

const BAR = 8;
const PITCHES = ['G3', 'D4', 'A4', 'Bb4', 'F#5', 'E5'] as const;
interface Tone {
  readonly pitch: string | undefined;
  readonly eighths: number;
}
const tone: fc.Arbitrary<Tone> = fc.record({
  pitch: fc.constantFrom(...PITCHES, undefined),
  eighths: fc.integer({ min: 1, max: 5 }),
});
/** One voice of one bar: tones cut off at the bar line. */
const voice = fc.array(tone, { minLength: 1, maxLength: 8 }).map((tones) => {
  let left = BAR;
  return tones.flatMap(({ pitch, eighths }) => {
    const fits = Math.min(eighths, left);
    left -= fits;
    return fits > 0 ? [{ pitch, eighths: fits }] : [];
  });
});
const bars = fc.array(fc.tuple(voice, voice), { minLength: 1, maxLength: 4 });

function written(tones: readonly Tone[], number: number): string {
  const mark = `<voice>${number}</voice>`;
  return tones.map(({ pitch, eighths }) => (pitch ? note(pitch, eighths, { after: mark }) : rest(eighths, mark))).join('');
}

function length(tones: readonly Tone[]): number {
  return tones.reduce((sum, { eighths }) => sum + eighths, 0);
}

/** How long every pitch sounds in all, in eighths. */
function sums(tones: readonly Tone[]): Record<string, number> {
  const found: Record<string, number> = {};
  for (const { pitch, eighths } of tones) if (pitch) found[pitch] = (found[pitch] ?? 0) + eighths;
  return found;
}

test('two voices become double stops in which every pitch sounds as long as before', () => {
  fc.assert(
    fc.property(bars, (music) => {
      const time = '<attributes><time><beats>4</beats><beat-type>4</beat-type></time></attributes>';
      const xml = score(
        music.map(([upper, lower], i) => {
          return `${i === 0 ? time : ''}${written(upper, 1)}<backup><duration>${length(upper)}</duration></backup>${written(lower, 2)}`;
        }),
      );
      const { text, losses } = importScore(xml);
      expect(resolve(parse(text)).problems).toEqual([]);
      expect(losses.filter((l) => l.kind === 'left out')).toEqual([]);
      const ours = passageOf(text).events.flatMap((event) =>
        event.spec.notes.map(
          ({ asked }): Tone => ({
            pitch: asked.kind === 'sounding' ? pitchName(asked.pitch) : '',
            eighths: event.duration.mul(8).valueOf(),
          }),
        ),
      );
      expect(sums(ours)).toEqual(sums(music.flat(2)));
    }),
    { seed: 5, numRuns: 150 },
  );
});
