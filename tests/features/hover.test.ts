import { describe, expect, it } from 'vitest';
import { hoverAt } from '../../server/features/hover';
import type { LinkTarget } from '../../server/features/note-account';
import { alternatives } from '../../server/solver/alternatives';
import { caret } from '../support/caret';
import { reading } from '../support/reading';

function shown(fixture: string, target?: LinkTarget): { words: string; markdown: string; on: string } {
  const { text, at } = caret(fixture);
  const read = reading(text);
  const found = hoverAt(read, at, { ...read.settings, target });
  const markdown = found?.markdown ?? '';
  const words = markdown.replace(/!\[[^\]]*\]\([^)]*\)/g, '[picture]').replace(/\]\(command:[^)]*\)/g, '](link)');
  return { words, markdown, on: found ? text.slice(found.span.start, found.span.end) : '' };
}

describe('hover', () => {
  it('explains a natural harmonic: place, feel, pitch, chance, bow, other ways', () => {
    const { words, on } = shown('1/4 D6^o [III at 1/4 3]');
    expect(on).toBe('D6o');
    expect(words).toContain('**D6** natural harmonic, III at 1/4');
    expect(words).toContain('[picture]');
    // 328 mm / 4, and a fourth above the open string: exact arithmetic.
    expect(words).toContain('Touch III with the third finger at 1/4 of the string, 82 mm from the nut.');
    expect(words).toContain('just where G4 would be stopped');
    expect(words).toMatch(/The finger may miss by 4\.\d mm either way\./);
    expect(words).toMatch(
      /Bow a little nearer the bridge than usual, faster and lighter than for a stopped note on this string: \d+ to \d+ mm from the bridge/,
    );
  });

  it('tells what it can while the fingering, or the other ways, are still worked out', () => {
    const { text, at } = caret('passage: Quay\n1/4 D6^o [III at 1/4 3]');
    const read = reading(text);
    const { solutions: _, ...begun } = read;
    const coming = (what: string) => `Still working out ${what}. Hover here again in a moment.`;
    expect(hoverAt(begun, at, read.settings)?.markdown).toBe(coming('how to play this'));
    expect(hoverAt(begun, 0, read.settings)?.markdown).toMatch(/^\*\*Quay\*\* for violin, medium hand\n\nStill working out/);
    expect(hoverAt(begun, text.indexOf('III'), read.settings)).toEqual(hoverAt(read, text.indexOf('III'), read.settings));
    const [whole, part] = [true, false].map(
      (others) => hoverAt(read, at, { ...read.settings, others })?.markdown.split('\n\n') ?? [],
    );
    expect(part).toContain(coming('other ways to play it'));
    expect(part).toEqual(whole!.map((one) => (/^(Other ways|No other way)/.test(one) ? coming('other ways to play it') : one)));
  });

  it('begins with what, where and why, in two lines before the rest', () => {
    const [what, why, picture, rule] = shown('1/4 D6^o [III at 1/4 3]').words.split('\n\n');
    expect(what).toBe('**D6** natural harmonic, III at 1/4, third finger');
    expect(why).toBe('Hand: 1st position. Why: as its hints ask. Clean and in tune **nearly always**.');
    expect([picture, rule]).toEqual(['[picture]', '---']);
    // Where the reason names the position, it is said once.
    expect(shown('1/4 D5^').words.split('\n\n')[1]).toMatch(/^Why: begins in 1st position\. Clean/);
    expect(shown('A4<>D5^ [III 1-4]').words).toMatch(/^\*\*A6\*\* fourth harmonic on III, first finger under fourth finger\n/);
  });

  it('says of a passage how fast it is safe, and what limits it', () => {
    expect(shown('pass^age: Mole\ntempo: 1/4 = 60\n1/4 D6o E6o A4 | G7o').words).toMatch(
      /(Up to 1\/4 = \d+ it comes out clean 8 times in 10; beyond that the limit is .+\.|At any tempo it comes out clean .+\.)$/,
    );
  });

  it('explains a word before a note, around a group, and by itself', () => {
    expect(shown('stac^cato D5')).toMatchObject({ on: 'staccato' });
    expect(shown('slur(ten^uto(D5 E5))').words).toContain('**tenuto** Held to its full length');
    expect(shown('D5 cresc^endo E5').words).toContain('Louder');
    expect(shown('D5 | da ca^po al fine').on).toBe('da capo al fine');
  });

  it('explains a hint behind a parenthesis', () => {
    const { words, on } = shown('(D5 E5)[I^I]');
    expect(on).toBe('II');
    expect(words).toBe(shown('D5 [I^I]').words);
  });

  it('says where a node lies against the stopped note that it feels like', () => {
    // Equal-tempered finger place less the node on 328 mm (derived): M6 at 2/5 +1.77 mm, so the node is the nearer to the nut.
    expect(shown('F#6^o [III at 2/5 3]').words).toContain('1.8 mm nearer the nut than B4 would be stopped');
    // M3 at 1/5: 328 (1 - 2^(-4/12)) - 328/5 = +2.07 mm; m3 at 1/6: -2.48 mm, the other way.
    expect(shown('F#6^o [III at 1/5 2]').words).toContain('2.1 mm nearer the nut than F♯4 would be stopped');
    expect(shown('A6^o [III at 1/6 1]').words).toContain('2.5 mm nearer the bridge than F4 would be stopped');
  });

  it('explains an artificial harmonic by both fingers', () => {
    const { words } = shown('A4<>D5^ [III]');
    // Touched a fourth above the stopped note it sounds two octaves above that: common practice, no source.
    expect(words).toContain('**A6** fourth harmonic on III');
    expect(words).toMatch(/Stop A4 on III with the \w+ finger \(109 mm from the nut\), touch a fourth above it/);
    expect(words).toMatch(/The pitch follows the stopping finger, 7\.9 cents for every mm/);
  });

  it('says in mm what the finger does between a harmonic and a stopped note on the same spot, both ways', () => {
    const there = shown('1/4 A5o^ [III at 1/3 3] A4 [III 3]').words;
    const back = shown('1/4 A4^ [III 3] A5o [III at 1/3 3]').words;
    const [, down] = /The stopped note A4 follows on the same spot: the finger goes ([\d.]+) mm toward the nut/.exec(there) ?? [];
    const [, up] = /The harmonic A5 follows on the same spot: the finger goes ([\d.]+) mm toward the bridge/.exec(back) ?? [];
    expect(Number(down)).toBeGreaterThan(3);
    expect(Number(down)).toBeLessThan(8);
    expect(up).toBe(down);
    expect(shown('1/4 A5o [III at 1/3 3] A4^ [III 3]').words).toContain(`the finger has come ${down} mm toward the nut`);
    expect(shown('1/4 A5o^ [III at 1/3 3] A4 [IV 4]').words).not.toContain('same spot');
  });

  it('lists other ways at other places first, as links that say what they apply', () => {
    const target = { uri: 'file:///mole.passage', version: 4 };
    const { markdown } = shown('D6^o', target);
    const links = [...markdown.matchAll(/\[([^\]]+)\]\(command:passagework\.pin\?([^ )]+) "[^"]*"\) \(\+([\d.]+) for/g)];
    expect(links.length).toBeGreaterThan(2);
    const solution = reading('D6o').solutions[0];
    const all = solution ? alternatives(solution, 0) : [];
    const places = links.map(([, label, args, extra]) => {
      const [params] = JSON.parse(decodeURIComponent(args ?? '')) as [{ alternative: number }];
      expect(params).toMatchObject({ ...target, passage: 0, event: 0 });
      expect(all[params.alternative]?.extraCost.toFixed(2)).toBe(extra);
      return label?.replace(/, fingers? .*/, '');
    });
    expect(new Set(places).size).toBe(places.length);
    expect(shown('D6^o').markdown).not.toContain('command:');
  });

  it('draws the sounding strings as a picture that stands for itself', () => {
    const { markdown } = shown('E6^o+B6o');
    const [, address = ''] = /!\[[^\]]+\]\((data:image\/svg\+xml,[^)\s]+)\)/.exec(markdown) ?? [];
    const svg = decodeURIComponent(address.replace('data:image/svg+xml,', ''));
    expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg".*<\/svg>$/);
    expect(svg.match(/data-kind="natural"/g)).toHaveLength(2);
    expect(svg).not.toMatch(/<script|href|url\(|NaN|Infinity/);
  });

  it('says why a note cannot be played', () => {
    expect(shown('1/4 C3^').words).toContain('**No way to play this.**');
  });

  it('measures a double stop against the pure interval', () => {
    // Both fingers barred across two strings a fifth apart touch fourths on both: a fifth 3:2 (model.md).
    expect(shown('D6^o [III at 1/4] +A6o [II at 1/4]').words).toContain('Together: 3:2, pure.');
    expect(shown('1/4 D5^ [II] +F#5 [I]').words).toMatch(/Together: 5:4, \+\d+ cents, \d+\.\d beats a second\./);
  });

  it('cautions where the hand opens past comfortable', () => {
    expect(shown('hand: small\n1/4 F4<>C5^ [III 1-4]').words).toContain(
      'Pain means stop: rest, and ask a teacher or a clinician.',
    );
    expect(shown('hand: large\n1/4 D5<>G5^ [II 1-4]').words).not.toContain('Pain');
  });

  it('explains a note of a motif where it is first played', () => {
    const found = shown('motif wave = D6^o E6o\nwave');
    expect(found.on).toBe('D6o');
    expect(found.words).toMatch(/^Where the motif is first used:\n\n\*\*D6\*\*/);
  });

  it('names the parts of the cost', () => {
    expect(shown('1/16 B3 [IV] B4^ [IV]').words).toMatch(/Cost \d+\.\d\d, mainly: .*moving the hand along the string \d+\.\d\d/);
  });

  it('tells how far off to expect a stopped note, the less the slower it is', () => {
    const cents = (tempo: number) =>
      Number(
        /Expect to land within (\d+) cents two times in three/.exec(
          shown(`tempo: 1/4 = ${tempo}\n1/4 B3 [IV 1] B4^ [IV 1]`).words,
        )![1],
      );
    expect(cents(160)).toBeGreaterThan(cents(40));
    expect(shown('1/4 D6^o').words).not.toContain('Expect to land within');
  });

  it.each([
    ['D6o [I^II]', 'III', 'On the third string from the top.'],
    ['D6o [^3]', '3', 'With the third finger.'],
    ['C#7o [1-^4]', '1-4', 'Artificial harmonic: finger 1 stops, finger 4 touches.'],
    ['D6o [at 1^/4]', 'at 1/4', 'partial 4'],
    ['D6o [3r^d]', '3rd', 'The hand in 3rd position.'],
    ['tem^po: 1/4 = 60\nD5', 'tempo', 'The beat, and how many of them there are in a minute.'],
  ])('explains the word in %s', (fixture, on, words) => {
    const found = shown(fixture);
    expect(found.on).toBe(on);
    expect(found.words).toContain(words);
  });

  it('shows the notes of a motif where it is used and counts its uses where it is defined', () => {
    const motif = 'motif wave = 1/16 D5 E5 F#5\n';
    expect(shown(`${motif}wa^ve up P8`).words).toContain('`1/16 D6 E6 F#6`');
    expect(shown('motif wa^ve = D5\nwave wave').words).toContain('used 2 times');
  });

  it('sums a passage up on its name', () => {
    expect(shown('passage: Mole h^ead\nD5 E5').words).toMatch(
      /\*\*Mole head\*\* for violin, medium hand\n\n2 notes; all clean and in tune \*\*nearly always\*\*/,
    );
    expect(shown('passage: Mole h^ead\nD5 C3').words).toContain('1 of 2 notes cannot be played.');
  });

  it.each(['1/4^ D5', 'D5 | ^', '// a com^ment', '> in^struction', '^', 'p^p D5', 'H^5'])('says nothing at %s', (fixture) => {
    expect(shown(fixture).markdown).toBe('');
  });
});
