import { expect, test } from 'vitest';
import { shown } from './show';

test('hints behind a parenthesis hold for what is in it', () => {
  const string = { kind: 'string', string: 2 };
  expect(shown('(D5 E5 [3]) [II]')).toMatchObject({
    items: [
      { at: '(D5 E5 [3]) [II]', kind: 'group', items: [{ at: 'D5' }, { at: 'E5 [3]' }], hints: { at: '[II]', hints: [string] } },
    ],
  });
  expect(shown('slur(D5 (E5 F5)[3rd])[II] G5')).toMatchObject({
    items: [
      {
        at: 'slur(D5 (E5 F5)[3rd])[II]',
        kind: 'stroke',
        word: 'slur',
        items: [{ at: 'D5' }, { kind: 'group', hints: { at: '[3rd]', hints: [{ kind: 'position', position: 3 }] } }],
        hints: { hints: [string] },
      },
      { at: 'G5' },
    ],
  });
  expect(shown('(slur(D5 E5) wave up M2)[II]')).toMatchObject({
    items: [{ kind: 'group', items: [{ kind: 'stroke' }, { kind: 'motif' }] }],
  });
});
