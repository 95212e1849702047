import fc from 'fast-check';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, test } from 'vitest';
import { importScore } from '../../server/exchange/import-score';
import { LIMITS } from '../../server/exchange/musicxml/limits';
import { Unreadable } from '../../server/exchange/unreadable';
import { note, score } from './score';

const sound = score([note('D6', 2, { technical: '<harmonic/>' })]);
const expected = '1/4 D6o |\n';

function refused(source: string | Uint8Array): string {
  try {
    importScore(source);
  } catch (error) {
    expect(error).toBeInstanceOf(Unreadable);
    return (error as Unreadable).message;
  }
  throw new Error('It was read.');
}

function container(path: string): Uint8Array {
  return strToU8(`<?xml version="1.0"?><container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`);
}

function utf16(text: string, little: boolean, mark = true): Uint8Array {
  const bytes = new Uint8Array((text.length + (mark ? 1 : 0)) * 2);
  const view = new DataView(bytes.buffer);
  if (mark) view.setUint16(0, 0xfeff, little);
  for (let i = 0; i < text.length; i++) view.setUint16((i + (mark ? 1 : 0)) * 2, text.charCodeAt(i), little);
  return bytes;
}

describe('encodings', () => {
  const in16 = sound.replace('encoding="UTF-8"', 'encoding="UTF-16"').replace('Violin', 'Violin ♯');
  test.each([
    ['UTF-8', strToU8(sound)],
    ['UTF-8 with a byte order mark', new Uint8Array([0xef, 0xbb, 0xbf, ...strToU8(sound)])],
    ['UTF-16, little endian', utf16(in16, true)],
    ['UTF-16, big endian', utf16(in16, false)],
    ['UTF-16 without a byte order mark', utf16(in16, true, false)],
    ['UTF-16 by name, UTF-8 in truth', strToU8(in16)],
  ])('%s is read', (_, bytes) => {
    expect(importScore(bytes).text.endsWith(expected)).toBe(true);
  });

  test('Latin-1 is read as it declares itself', () => {
    const latin = `<?xml version="1.0" encoding="ISO-8859-1"?>${score([note('D5', 2)], { head: '<movement-title>R\u00eaverie</movement-title>' }).slice(38)}`;
    expect(importScore(Uint8Array.from(latin, (c) => c.charCodeAt(0))).title).toBe('Rêverie');
  });

  test.each([
    ['an unknown encoding', strToU8(sound.replace('UTF-8', 'EBCDIC-9')), /encoded as “ebcdic-9”/],
    ['bytes that are not UTF-8', new Uint8Array([...strToU8('<a>'), 0xc3, 0x28, ...strToU8('</a>')]), /not valid UTF-8/],
    ['UTF-32', new Uint8Array([0xff, 0xfe, 0, 0, 0x3c, 0, 0, 0]), /“utf-32”/],
    ['half a UTF-16 character', utf16(in16, true).subarray(0, 401), /not valid UTF-16/],
    ['control characters', sound.replace('Violin', 'Vio\u0000lin'), /line 4: .*control character/],
  ])('%s is refused', (_, source, message) => expect(refused(source)).toMatch(message));
});

describe('XML', () => {
  const bomb = `<?xml version="1.0"?><!DOCTYPE lolz [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]><score-partwise>&b;</score-partwise>`;
  test.each([
    ['entities that grow', bomb, /defines entities/],
    ['an external entity', '<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]><a>&x;</a>', /defines entities/],
    ['a document type without an end', '<!DOCTYPE score-partwise <score-partwise/>', /defines entities or is broken/],
    ['declarations after the prolog', '<score-partwise><!ENTITY x "y"></score-partwise>', /Entities are declared/],
    ['an undefined entity', sound.replace('Violin', '&violin;'), /The entity &violin; is not one/],
    [
      'elements deep inside one another',
      `<score-partwise>${'<a>'.repeat(5000)}${'</a>'.repeat(5000)}</score-partwise>`,
      /nested more than/,
    ],
    [
      'elements without number',
      `<score-partwise>${'<a/>'.repeat(LIMITS.elements + 1)}</score-partwise>`,
      /more than 1,000,000 elements/,
    ],
    ['an element never closed', sound.replace('</measure>', ''), /line 5, column 223: .*not well-formed/],
    ['two scores in one file', '<score-partwise/><score-partwise/>', /not well-formed XML: Extra content/],
    [
      'depth behind signs that look like ends',
      `<score-partwise>${'<a b="/>">'.repeat(5000)}${'</a>'.repeat(5000)}</score-partwise>`,
      /nested more than/,
    ],
    ['an attribute never closed', '<score-partwise><a b="></a></score-partwise>', /line 1, column 24: .*not well-formed/],
    ['an attribute twice', '<score-partwise a="1" a="2"/>', /Duplicate attribute: a/],
    ['names that would reach into objects', '<score-partwise><__proto__ __proto__="1"/></score-partwise>', /no part with music/],
    ['another kind of XML', '<html><body/></html>', /not a MusicXML score: its outermost element is <html>/],
    ['no XML', 'D6o F#6o A6o', /not well-formed/],
    ['nothing', '', /empty/],
    ['a score without parts', '<score-partwise><part-list/></score-partwise>', /no part with music/],
  ])('%s: a clear error', (_, source, message) => expect(refused(source)).toMatch(message));

  test('a file that is too large', () => {
    expect(refused(new Uint8Array(LIMITS.fileBytes + 1))).toMatch(/larger than 32 MB/);
  });

  test("XML's own entities, character references and CDATA are characters", () => {
    const head = '<movement-title>Ebb &amp; flow &#x266F;<![CDATA[ &amp; <so> on]]></movement-title>';
    expect(importScore(score([note('D5', 2)], { head })).title).toBe('Ebb & flow ♯ &amp; <so> on');
  });

  test('what is no element says nothing, and a sign in quotes ends no tag', () => {
    const head = '<?player on?><!-- <a> --><work n="a>b"/><movement-title>Ebb <?pause?>and<!-- & --> flow 𝄞</movement-title>';
    expect(importScore(score([note('D5', 2)], { head })).title).toBe('Ebb and flow 𝄞');
  });

  test('numbers out of all proportion are left out, not believed', () => {
    const huge = sound.replace('<duration>2', '<duration>99999999999999999999').replace('<octave>6', '<octave>1e99');
    const { text, losses } = importScore(huge);
    expect(text).toContain('instrument: violin');
    expect(losses.length).toBeGreaterThan(0);
  });
});

describe('.mxl', () => {
  const packed = (files: Record<string, Uint8Array>) => zipSync(files, { level: 1 });
  const good = packed({ 'META-INF/container.xml': container('scores/main.musicxml'), 'scores/main.musicxml': strToU8(sound) });

  test('is read', () => expect(importScore(good).text.endsWith(expected)).toBe(true));

  test.each([
    ['a ZIP file of something else', packed({ 'readme.txt': strToU8('hello') }), /no META-INF/],
    ['no score named', packed({ 'META-INF/container.xml': strToU8('<container/>') }), /names no score/],
    ['a score that is missing', packed({ 'META-INF/container.xml': container('a.musicxml') }), /holds no such entry/],
    ['a path out of the file', packed({ 'META-INF/container.xml': container('../../etc/passwd') }), /points outside itself/],
    ['an absolute path', packed({ 'META-INF/container.xml': container('/etc/passwd') }), /points outside itself/],
    ['a path with a drive', packed({ 'META-INF/container.xml': container('C:\\score.xml') }), /points outside itself/],
    ['an address', packed({ 'META-INF/container.xml': container('https://example.org/a.xml') }), /points outside itself/],
    ['a file cut off', good.subarray(0, good.length - 400), /damaged|holds no such/],
    ['a ZIP within', packed({ 'META-INF/container.xml': container('a.mxl'), 'a.mxl': good }), /not valid|control|well-formed/],
  ])('%s: a clear error', (_, bytes, message) => expect(refused(bytes)).toMatch(message));

  test('a bomb is not unpacked past the limit, whatever size it claims', () => {
    const zeros = new Uint8Array(LIMITS.unpackedBytes + 2 ** 20);
    const bomb = packed({ 'META-INF/container.xml': container('a.musicxml'), 'a.musicxml': zeros });
    expect(bomb.length).toBeLessThan(1_000_000);
    expect(refused(bomb)).toMatch(/unpacks to more than 32 MB/);
    // The same with its sizes forged to one byte in the local and the central header.
    const forged = new Uint8Array(bomb);
    const view = new DataView(forged.buffer);
    for (let i = 0; i < forged.length - 46; i++) {
      const signature = view.getUint32(i, true);
      if (signature === 0x04034b50 && forged[i + 30] === 0x61) view.setUint32(i + 22, 1, true);
      if (signature === 0x02014b50 && forged[i + 46] === 0x61) view.setUint32(i + 24, 1, true);
    }
    expect(refused(forged)).toMatch(/unpacks to more than 32 MB|damaged/);
  });
});

describe('damage', () => {
  const bytes = strToU8(sound);
  const packed = zipSync({ 'META-INF/container.xml': container('a.musicxml'), 'a.musicxml': bytes });
  const change = fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), { minLength: 1, maxLength: 8 });

  test.each([
    ['text', bytes],
    ['an archive', packed],
  ])('%s with random bytes changed is read or refused, never worse', (_, original) => {
    fc.assert(
      fc.property(change, (changes) => {
        const damaged = new Uint8Array(original);
        for (const [at, value] of changes) damaged[at % damaged.length] = value;
        try {
          expect(importScore(damaged).text).toContain('instrument: ');
        } catch (error) {
          expect(error).toBeInstanceOf(Unreadable);
        }
      }),
      { seed: 8, numRuns: 300 },
    );
  });

  test('anything between the tags of a score is read or refused', () => {
    const name = fc.constantFrom(
      'note',
      'pitch',
      'step',
      'octave',
      'alter',
      'duration',
      'chord',
      'notations',
      'technical',
      'harmonic',
      'attributes',
      'divisions',
      'time',
      'beats',
      'beat-type',
      'backup',
      'forward',
      'grace',
      'rest',
      'direction',
      'sound',
      'barline',
      'transpose',
      'chromatic',
      'key',
      'fifths',
      'type',
      'time-modification',
      'actual-notes',
      'tie',
      'slur',
      'fingering',
      'string',
    );
    const leaf = fc.oneof(
      fc.constantFrom('0', '-1', '1', '7', '3.5', '1e9', 'NaN', 'A', 'quarter', 'diamond', ''),
      fc.string({ maxLength: 4 }).map((s) => s.replace(/[^ -~]|[<>&]/g, '')),
    );
    const { tree } = fc.letrec<{ tree: string }>((tie) => ({
      tree: fc.oneof(
        { maxDepth: 5 },
        leaf,
        fc
          .tuple(name, fc.array(tie('tree'), { maxLength: 5 }))
          .map(([n, inner]) => `<${n} type="start" number="1">${inner.join('')}</${n}>`),
      ),
    }));
    fc.assert(
      fc.property(fc.array(tree, { maxLength: 12 }), (content) => {
        try {
          expect(importScore(score([content.join('') + note('D5', 2)])).text).toContain('instrument: ');
        } catch (error) {
          expect(error).toBeInstanceOf(Unreadable);
        }
      }),
      { seed: 9, numRuns: 400 },
    );
  });
});
