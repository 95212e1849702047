import { describe, expect, test } from 'vitest';
import { bowAdvice, forceWindow, impedance } from '../../server/instrument/bow';
import { buildInstrument } from '../../server/instrument/build';
import { renderString } from '../../server/instrument/waveguide';
import { partials } from './partials';

/** Twice a violin's sixth partial in tenth position must still be heard. */
const RATE = 44100;

describe.each(['violin', 'viola', 'cello'] as const)(
  'every string of a %s, simulated and bowed as advised, sounds what is fingered',
  (family) => {
    const { strings, length: full } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
    test.each(strings)('string $name', (string) => {
      for (const semitones of [0, 5, 10]) {
        const length = full * 2 ** (-semitones / 12);
        const hz = string.hz * 2 ** (semitones / 12);
        for (let partial = 1; partial <= 6; partial++) {
          const note = { family, string, length, partial };
          const { contact, speedRatio } = bowAdvice(note, full);
          const speed = 0.2 * speedRatio;
          for (const place of ['nearest', 'best', 'farthest'] as const) {
            const distance = contact[place];
            const sound = renderString({
              length,
              hz,
              impedance: impedance(string),
              ...(partial > 1 ? { touch: { mm: length / partial } } : {}),
              by: { distance, speed, force: forceWindow(note, distance, speed).best },
              seconds: 1,
              sampleRate: RATE,
            });
            const heard = partials(sound, RATE, hz, Math.max(6, 2 * partial), 0.7, 1);
            const told = `${semitones} semitones up, partial ${partial}, bowed at the ${place} place`;
            expect(heard.indexOf(Math.max(...heard)), told).toBe(partial);
          }
        }
      }
    });
  },
);
