import fc from 'fast-check';
import { test } from 'vitest';
import { runs } from '../support/runs';
import { passageText } from './passages';
import { expectRoundTrip } from './round-trip';
import { schema } from './schema';

/** The round trip of musicxml-round-trip.test.ts, over many more passages. */
test('any passage survives MusicXML', () => {
  const validate = schema();
  fc.assert(
    fc.property(passageText, (text) => expectRoundTrip(text, validate)),
    runs(2000, 66),
  );
});
