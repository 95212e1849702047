import { Key } from 'tonal';
import { describe, expect, it } from 'vitest';
import { KEY_NAMES } from '../../server/music/key-names';

describe('keys that there are signatures for, against tonal', () => {
  const majors = Array.from({ length: 15 }, (_, i) => Key.majorTonicFromKeySignature(i - 7) as string);

  it('major, from seven flats to seven sharps', () => expect(KEY_NAMES.major).toEqual(majors));
  it('minor, each beside the major key of the same signature', () => {
    expect(KEY_NAMES.minor).toEqual(majors.map((tonic) => Key.majorKey(tonic).minorRelative));
  });
});
