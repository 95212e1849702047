import { expect } from 'vitest';
import { parse } from '../../grammar/parse';
import { importScore } from '../../server/exchange/import-score';
import { writeMusicXml } from '../../server/exchange/musicxml/write';
import { demands, passageOf } from './passages';
import type { Validate } from './schema';

/** A passage written as MusicXML is valid, loses nothing, and reads back as what it asks for. */
export function expectRoundTrip(text: string, validate: Validate | undefined): void {
  const passage = passageOf(text);
  const xml = writeMusicXml(passage);
  const back = importScore(xml);
  expect(back.losses).toEqual([]);
  expect(parse(back.text).lines.flatMap((l) => l.node.problems)).toEqual([]);
  expect(demands(passageOf(back.text))).toEqual(demands(passage));
  expect(validate?.(xml) ?? []).toEqual([]);
}
