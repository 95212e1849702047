import { describe, expect, test } from 'vitest';
import { importScore } from '../../server/exchange/import-score';
import { grouped, groupText, lossText } from '../../server/exchange/score/losses';
import { note, score } from './score';

describe('parts', () => {
  const parts = ['Flute', 'Violoncello', 'Violin'];
  const partList = parts.map((name, i) => `<score-part id="P${i + 1}"><part-name>${name}</part-name></score-part>`).join('');
  const bars = (i: number) =>
    `<measure number="1"><attributes><divisions>2</divisions></attributes>${note(['A5', 'C3', 'E5'][i] as string, 2)}</measure>`;
  const partwise = `<score-partwise><part-list>${partList}</part-list>${parts.map((_, i) => `<part id="P${i + 1}">${bars(i)}</part>`).join('')}</score-partwise>`;
  const timewise = `<score-timewise><part-list>${partList}</part-list><measure number="1">${parts
    .map((_, i) => `<part id="P${i + 1}">${bars(i).replace(/<\/?measure[^>]*>/g, '')}</part>`)
    .join('')}</measure></score-timewise>`;

  test.each([
    ['part-wise', partwise],
    ['time-wise', timewise],
  ])('%s: the first string part, or the one chosen by name, id or number', (_, xml) => {
    expect(importScore(xml)).toMatchObject({ part: 'Violoncello', parts: parts.map((name, i) => ({ id: `P${i + 1}`, name })) });
    expect(importScore(xml).text).toContain('instrument: cello\n\n1/4 C3 |');
    expect(importScore(xml, { part: 'violin' }).text).toContain('1/4 E5 |');
    expect(importScore(xml, { part: 'P1' }).text).toContain('1/4 A5 |');
    expect(importScore(xml, { part: '3' }).part).toBe('Violin');
    expect(importScore(xml, { part: '1' }).part).toBe('Flute');
    expect(() => importScore(xml, { part: 'Tuba' })).toThrow(
      'The score has no part “Tuba”. Its parts are: 1 Flute, 2 Violoncello, 3 Violin.',
    );
  });

  const named = (...names: string[]) =>
    `<score-partwise><part-list>${names.map((name, i) => `<score-part id="P${i + 1}"><part-name>${name}</part-name></score-part>`).join('')}</part-list>${names.map((_, i) => `<part id="P${i + 1}">${bars(i)}</part>`).join('')}</score-partwise>`;

  test('a number counts the parts, whatever they are called, and that is told; a name that several have is refused', () => {
    const xml = named('3', '2', '1');
    expect(importScore(xml, { part: '3' }).text).toContain('E5');
    expect(importScore(xml, { part: '3' }).losses.map(lossText)).toContain(
      'whole score: changed: a part that could have been meant by its name, as another one has this number: “3”',
    );
    expect(importScore(named('9', 'Violin'), { part: '9' }).text).toContain('A5');
    expect(() => importScore(named('Violin', 'Viola', 'Violin'), { part: 'violin' })).toThrow(
      'More than one part is called “violin”: 1 Violin, 3 Violin. Name the part by its number.',
    );
  });

  test('what a score prints once, over its first part, holds in all of them', () => {
    const tempo =
      '<direction><direction-type><words>Calm</words></direction-type><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>60</per-minute></metronome></direction-type><direction-type><dynamics><f/></dynamics></direction-type></direction>';
    const mark = '<direction><direction-type><rehearsal>B</rehearsal></direction-type></direction>';
    const start = '<attributes><divisions>2</divisions></attributes>';
    const close = '<barline location="right"><repeat direction="backward"/></barline>';
    const top = `<measure number="1">${start}${tempo}${note('A5', 2)}</measure><measure number="2">${mark}${note('A5', 2)}${close}</measure>`;
    const low = `<measure number="1">${start}${note('E5', 2)}</measure><measure number="2">${note('E5', 2)}</measure>`;
    const list = ['Flute', 'Violin'].map((name, i) => `<score-part id="P${i}"><part-name>${name}</part-name></score-part>`);
    const xml = `<score-partwise><part-list>${list.join('')}</part-list><part id="P0">${top}</part><part id="P1">${low}</part></score-partwise>`;
    const { text, losses: lost } = importScore(xml, { part: 'Violin' });
    expect(text).toBe('// part: Violin\ninstrument: violin\n\ntempo: 1/4 = 60\n> Calm\n1/4 E5 |\nmark: B\n1/4 E5 :|\n');
    expect(lost).toEqual([]);
  });

  test('losses are grouped, those that change notes first', () => {
    const xml = score([
      note('D5', 2, { technical: '<fingernails/>' }).repeat(2),
      note('D5', 2, { technical: '<fingernails/>' }) + note('D5', 1).replace('</step>', '</step><alter>0.5</alter>'),
    ]);
    expect(grouped(importScore(xml).losses).map(groupText)).toEqual([
      'notes changed: a pitch between the semitones, written as the nearest semitone: D5, 0.5 semitones (bar 2)',
      'left out, 2 times: the mark “fingernails” (bars 1, 2)',
    ]);
  });

  test.each([
    ['Vln. II', 'violin'],
    ['Violine', 'violin'],
    ['Viola', 'viola'],
    ['Bratsche', 'viola'],
    ['Violoncelle', 'cello'],
    ['Vc.', 'cello'],
  ])('%s is a part for %s', (name, family) => {
    expect(importScore(score([note('A4', 2)], { name })).text).toContain(`instrument: ${family}\n`);
  });
});
