import { afterEach, expect, it } from 'vitest';
import { later, speak, t } from '../../server/l10n/translate';

// The files of a process share their modules.
afterEach(() => speak(undefined));

it('says English where no language was given, every hole filled, whatever is in it', () => {
  expect(t('Write {text}', { text: '{text} $& $1' })).toBe('Write {text} $& $1');
  expect(t('{whole} cents above', { whole: 0 })).toBe('0 cents above');
  expect(t('A rest.')).toBe('A rest.');
});

it('puts the holes where the language has them, as often as it has them', () => {
  speak({ 'The motif {name} is never used.': '{name}: nenie uzata motivo, {name}.', 'A rest.': 'Paŭzo.' });
  expect(t('The motif {name} is never used.', { name: 'wave' })).toBe('wave: nenie uzata motivo, wave.');
  const table = [later('A rest.')];
  expect(t(table[0]!)).toBe('Paŭzo.');
});

it('speaks another language from the moment it is told to, and leaves in English what that lacks', () => {
  expect(t('Write {text}', { text: 'D5' })).toBe('Write D5');
  speak({ 'Write {text}': 'Skribu {text}' });
  expect(t('Write {text}', { text: 'D5' })).toBe('Skribu D5');
  speak({});
  expect(t('Write {text}', { text: 'D5' })).toBe('Write D5');
});

it('keeps a hole that a translator made up, and does without one that is left out', () => {
  speak({ 'Write {text}': 'Skribu {teksto}' });
  expect(t('Write {text}', { text: 'D5' })).toBe('Skribu {teksto}');
});

it('takes nothing from a bundle but texts', () => {
  speak({ 'A rest.': 5 } as never);
  expect(t('A rest.')).toBe('A rest.');
  expect(t('constructor' as string)).toBe('constructor');
});

it('is held by its types to the holes of a message', () => {
  // @ts-expect-error: nothing fills the hole.
  expect(t('Write {text}')).toBe('Write {text}');
  // @ts-expect-error: there is no such hole.
  expect(t('Write {text}', { txt: 'D5' })).toBe('Write {text}');
});
