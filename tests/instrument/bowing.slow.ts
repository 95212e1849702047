import { describe, expect, test } from 'vitest';
import { bowAdvice, impedance } from '../../server/instrument/bow';
import { buildInstrument } from '../../server/instrument/build';
import { renderString } from '../../server/instrument/waveguide';
import { partials } from './partials';

const RATE = 22050;

describe.each(['violin', 'viola', 'cello'] as const)(
  'every string of a %s, simulated and bowed as advised, sounds what is fingered',
  (family) => {
    const { strings, length: full } = buildInstrument({ family, tuning: 'fifths', a4: 440 });
    test.each(strings)('string $name', (string) => {
      for (const semitones of [0, 5, 10]) {
        const length = full * 2 ** (-semitones / 12);
        const hz = string.hz * 2 ** (semitones / 12);
        for (let partial = 1; partial <= 6; partial++) {
          const { contact, speedRatio, window } = bowAdvice({ family, string, length, partial }, full);
          const sound = renderString({
            length,
            hz,
            impedance: impedance(string),
            ...(partial > 1 ? { touch: { mm: length / partial } } : {}),
            by: { distance: contact.best, speed: 0.2 * speedRatio, force: window.best },
            seconds: 1,
            sampleRate: RATE,
          });
          const heard = partials(sound, RATE, hz, Math.max(6, 2 * partial), 0.7, 1);
          expect(heard.indexOf(Math.max(...heard)), `${semitones} semitones up, partial ${partial}`).toBe(partial);
        }
      }
    });
  },
);
