import { describe, expect, it } from 'vitest';
import { CannotRun } from '../../server/command/cannot-run';
import { decode } from '../../server/command/decode';
import { visible, visibleLines, visibleWithin } from '../../server/command/visible';

const bytes = (...values: number[]) => Uint8Array.from(values);

describe('text that is read', () => {
  it('is UTF-8, and a byte order mark is kept apart', () => {
    expect(decode(Buffer.from('1/4 D5 // Übung 𝄞\r\n'), 'a')).toEqual({ text: '1/4 D5 // Übung 𝄞\r\n', mark: '' });
    expect(decode(Buffer.from('\uFEFF1/4 D5'), 'a')).toEqual({ text: '1/4 D5', mark: '\uFEFF' });
    expect(decode(bytes(), 'a')).toEqual({ text: '', mark: '' });
  });

  it.each([
    ['Latin-1', Buffer.from('1/4 D5\n// für Zoë\n', 'latin1'), /a can't be read: the byte 0xFC on line 2 is not UTF-8.*Latin-1/],
    ['UTF-16, little end first', Buffer.from('\uFEFF1/4 D5', 'utf16le'), /written in UTF-16/],
    ['UTF-16, big end first', Buffer.from('\uFEFF1/4 D5', 'utf16le').swap16(), /written in UTF-16/],
    ['UTF-16 without a mark', Buffer.from('1/4 D5 E5 F5', 'utf16le'), /written in UTF-16/],
    ['UTF-32', bytes(0xff, 0xfe, 0, 0, 0x31, 0, 0, 0), /written in UTF-32/],
    // Source: RFC 3629, section 3: a surrogate, a form longer than need be and what is cut short are no UTF-8.
    ['half a pair', bytes(0x31, 0xed, 0xa0, 0x80), /is not UTF-8/],
    ['an overlong form', bytes(0x31, 0xc0, 0xaf), /is not UTF-8/],
    ['a sign cut short', bytes(0x31, 0xe2, 0x82), /is not UTF-8/],
  ])('refuses %s by name', (_, given, reason) => {
    expect(() => decode(given, 'a')).toThrow(CannotRun);
    expect(() => decode(given, 'a')).toThrow(reason);
  });
});

describe('text that is shown', () => {
  it('has every sign that a terminal obeys as a picture, one for one', () => {
    const hostile = '\x1b]0;taken\x07\x1b[2Ka\x08b\rc\x7f\x9b31m\u202exyz\u2066\0';
    const shown = visible(hostile);
    expect(shown).toHaveLength(hostile.length);
    expect(shown).toBe('␛]0;taken␇␛[2Ka␈b␍c␡�31m�xyz�␀');
    expect(visible('a\tb é 𝄞 日本')).toBe('a\tb é 𝄞 日本');
    expect(visible('a\nb')).toBe('a␊b');
    expect(visibleLines('a\nb\x1b')).toBe('a\nb␛');
  });

  it('within everything that a report holds', () => {
    expect(visibleWithin({ a: ['\x1b', { b: '\x07', n: 1, none: null }] })).toEqual({ a: ['␛', { b: '␇', n: 1, none: null }] });
  });
});
