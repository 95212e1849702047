import fc from 'fast-check';
import { test } from 'vitest';
import { semitone } from '../../server/music/pitch';
import { sounding } from '../../server/passage/sounding';
import { runs } from '../support/runs';
import { passageOf, passageText } from './passages';
import { expectRoundTrip } from './round-trip';
import { schema } from './schema';

/** The round trip of musicxml-round-trip.test.ts, over many more passages. */
test('any passage survives MusicXML', () => {
  const validate = schema();
  fc.assert(
    fc.property(passageText, (text) => {
      fc.pre(!readsAsOne(text));
      expectRoundTrip(text, validate);
    }),
    runs(2000, 66),
  );
});

/** True where a note stands beside a harmonic that sounds it: on paper that is the harmonic with its sounding pitch, and reads back so. */
function readsAsOne(text: string): boolean {
  const { events, setup } = passageOf(text);
  return events.some(({ spec: { notes } }) =>
    notes.some(
      ({ asked }, i) =>
        asked.kind !== 'sounding' &&
        sounding(asked, setup.instrument).some((one) =>
          notes.some(
            (other, j) => j !== i && other.asked.kind === 'sounding' && semitone(other.asked.pitch) === semitone(one.pitch),
          ),
        ),
    ),
  );
}
