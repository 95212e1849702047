import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { readMusicXml } from '../../server/exchange/musicxml/read';
import { writeMusicXml } from '../../server/exchange/musicxml/write';
import { runs } from '../support/runs';
import { demands, passageOf, passageText } from './passages';
import { schema } from './schema';

/** The round trip of musicxml-round-trip.test.ts, over many more passages. */
test('any passage survives MusicXML', () => {
  const validate = schema();
  fc.assert(
    fc.property(passageText, (text) => {
      const passage = passageOf(text);
      const xml = writeMusicXml(passage);
      const back = readMusicXml(xml);
      expect(back.losses).toEqual([]);
      expect(parse(back.text).lines.flatMap((l) => l.node.problems)).toEqual([]);
      expect(demands(passageOf(back.text))).toEqual(demands(passage));
      expect(validate?.(xml) ?? []).toEqual([]);
    }),
    runs(2000, 66),
  );
});
