import { expect, test } from 'vitest';
import { actionOf, KEYS } from '../../client/webview/keys';
import { pictureName } from '../../client/webview/save-picture';

const key = (name: string, held: Partial<Record<'shiftKey' | 'ctrlKey' | 'altKey' | 'metaKey', boolean>> = {}) =>
  actionOf({ key: name, shiftKey: false, ctrlKey: false, altKey: false, metaKey: false, ...held });

test('arrows step, with Shift they choose', () => {
  expect(key('ArrowRight')).toEqual({ kind: 'step', by: 1, extend: false });
  expect(key('ArrowLeft', { shiftKey: true })).toEqual({ kind: 'step', by: -1, extend: true });
  expect(key('End')).toEqual({ kind: 'edge', to: 'last', extend: false });
});

test('what is held with Ctrl, Alt or Command stays the editor’s', () => {
  for (const held of ['ctrlKey', 'altKey', 'metaKey'] as const) expect(key('r', { [held]: true })).toBeUndefined();
  expect(key('Tab')).toBeUndefined();
  expect(key('Escape')).toBeUndefined();
});

test('every key that the panel lists does something, in capitals too', () => {
  const named: Readonly<Record<string, string>> = {
    '←': 'ArrowLeft',
    '→': 'ArrowRight',
    Space: ' ',
    Home: 'Home',
    End: 'End',
    Enter: 'Enter',
  };
  for (const [keys] of KEYS) {
    for (const name of keys.replace('Shift ', '').split(/,? /)) expect(key(named[name] ?? name), name).toBeDefined();
  }
  expect(key('R')).toEqual(key('r'));
});

test('a picture is named after its passage, safely', () => {
  expect(pictureName('Lighthouse study, bars 1-4')).toBe('lighthouse-study-bars-1-4');
  expect(pictureName('../../Étude «No. 2»')).toBe('e-tude-no-2');
  expect(pictureName('')).toBe('passage');
});
