import { describe, expect, test } from 'vitest';
import { importScore } from '../../server/exchange/import-score';
import { leastWork } from '../support/least-work';
import { note, score } from './score';

describe('absurd but well-formed scores', () => {
  const rest = '<note><rest/><duration>1</duration></note>';
  const dynamic = '<direction><direction-type><dynamics><p/></dynamics></direction-type></direction>';
  const diamond = note('G5', 2, { before: '<chord/>', after: '<notehead>diamond</notehead>' });
  test.each([
    ['a bar of many notes', (n: number) => note('D5', 1).repeat(n)],
    [
      'a bar of many rests in many voices',
      (n: number) => `${note('D5', 1)}<backup><duration>1</duration></backup>${rest}`.repeat(n),
    ],
    ['many dynamics', (n: number) => (dynamic + note('D5', 1)).repeat(n)],
    ['many grace notes', (n: number) => note('D5', 0, { before: '<grace/>' }).repeat(n) + note('E5', 2)],
    ['a chord of many diamonds', (n: number) => note('D5', 2) + diamond.repeat(n)],
  ])('%s: time grows with the size, not with its square', (_, content) => {
    const time = (n: number) => {
      const xml = score([content(n)]);
      return leastWork(3, () => importScore(xml));
    };
    time(100);
    // Eight times the size: about 8 in proportion, 64 for a square.
    expect(time(2400) / time(300)).toBeLessThan(30);
  });
});
