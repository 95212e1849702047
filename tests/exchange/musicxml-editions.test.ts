import { beforeAll, describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { importScore } from '../../server/exchange/import-score';
import { writeMusicXml } from '../../server/exchange/musicxml/write';
import { resolve } from '../../server/passage/resolve';
import { factsOf, scoreDifferences } from './differ';
import { EDITIONS } from './editions';
import { passageOf } from './passages';
import { schema, type Validate } from './schema';

let validate: Validate | undefined;
beforeAll(() => {
  validate = schema();
});

describe('what an edition prints goes in and comes out whole', () => {
  test.each(EDITIONS)('%s', (_, xml) => {
    expect(validate?.(xml) ?? []).toEqual([]);
    const { text, losses } = importScore(xml);
    expect(losses).toEqual([]);
    const tree = parse(text);
    expect(tree.lines.flatMap(({ node }) => node.problems)).toEqual([]);
    expect(resolve(tree).problems).toEqual([]);
    const back = writeMusicXml(passageOf(text));
    expect(validate?.(back) ?? []).toEqual([]);
    expect(scoreDifferences(xml, back)).toEqual([]);
  });

  test('the differ sees a mark, a pitch and a slur that are not there', () => {
    const xml = EDITIONS.find(([name]) => name.startsWith('bows'))?.[1] ?? '';
    expect(factsOf(xml).length).toBeGreaterThan(15);
    const other = xml
      .replace('<slur type="stop" number="1"/>', '')
      .replace('<down-bow/>', '')
      .replace('<step>G</step>', '<step>A</step>');
    expect(scoreDifferences(xml, other)).toEqual([
      '+ bar 1 at 3/8: A 5 1/8',
      '- bar 1 at 0: down-bow',
      '- bar 1 at 3/8: G 5 1/8',
      '- slur from bar 1 at 0 to bar 1 at 1/8',
    ]);
  });
});
