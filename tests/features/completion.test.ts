import { describe, expect, it } from 'vitest';
import { completions } from '../../server/features/completion';
import { hintHelp } from '../../server/features/hint-help';
import { caret, edited } from '../support/caret';
import { reading } from '../support/reading';

function offered(fixture: string) {
  const { text, at } = caret(fixture);
  return completions(reading(text), at);
}

function labels(fixture: string): readonly string[] {
  return offered(fixture).map(({ label }) => label);
}

/** The text after the offer of that label is taken. */
function taken(fixture: string, label: string): string {
  const { text } = caret(fixture);
  const offer = offered(fixture).find((one) => one.label === label);
  if (!offer) throw new Error(`Nothing called ${label} is offered, but ${labels(fixture).join(' ')}`);
  return edited(text, [offer]);
}

describe('completion', () => {
  it('offers pitches that can be harmonics here, nearest to the note before first', () => {
    const pitches = offered('1/4 D6o ^').filter(({ kind }) => kind === 'pitch');
    expect(pitches.slice(0, 3).map(({ label }) => label)).toEqual(['D6o', 'C#6o', 'D#6o']);
    expect(pitches[0]?.detail).toMatch(/^III natural 1\/4, finger \d, room 4\.\d mm either side, and \d+ more ways$/);
  });

  it('offers no pitch that the instrument cannot sound as a harmonic', () => {
    const names = labels('D6o ^');
    expect(names).not.toContain('G3o');
    // The lowest harmonic of a violin: the octave of its G string.
    const lowest = offered('G3 ^').find(({ kind }) => kind === 'pitch');
    expect(lowest?.label).toBe('G4o');
    expect(labels('instrument: viola\nC3 ^')).toContain('C4o');
  });

  it('spells with flats after flats', () => {
    expect(labels('Bb5o ^')).toContain('Eb6o');
    expect(labels('B5o ^')).toContain('D#6o');
  });

  it.each([
    ['te^', 'tempo:', 'tempo: '],
    ['pas^', 'passage:', 'passage: '],
    ['instrument: ^', 'viola', 'instrument: viola'],
    ['hand: sm^', 'small', 'hand: small'],
    ['D6o [^', 'natural', 'D6o [natural'],
    ['D6o [II na^]', 'natural', 'D6o [II natural]'],
    ['D6o+E^', 'E6o', 'D6o+E6o'],
    ['motif wave = D5\nwa^', 'wave', 'motif wave = D5\nwave'],
    ['motif wave = D5\nwave ^', 'backwards', 'motif wave = D5\nwave backwards'],
    ['motif wave = D5\nwave up M^', 'M2', 'motif wave = D5\nwave up M2'],
    ['D5 // check: ^', 'lone-third', 'D5 // check: lone-third'],
    ['D5 // check: lone-third ^', 'off', 'D5 // check: lone-third off'],
  ])('at %s offers %s', (fixture, label, wanted) => {
    expect(taken(fixture, label)).toBe(wanted);
  });

  it('begins an empty file with settings and examples', () => {
    const first = offered('^');
    expect(first[0]?.label).toBe('passage:');
    expect(first.slice(1, 5).every(({ kind }) => kind === 'setting')).toBe(true);
    expect(first.find(({ label }) => label === 'instrument:')?.detail).toContain('instrument: violin 3/4');
    expect(labels('^')).toEqual(expect.arrayContaining(['new passage', 'new scale', 'new arpeggio', 'new study']));
  });

  it('offers whole passages that read without an error and can be played', () => {
    for (const { text, label } of offered('^').filter(({ label }) =>
      ['new passage', 'new scale', 'new arpeggio', 'new study'].includes(label),
    )) {
      const plain = text.replace(/\$\{\d+:([^}]*)\}/g, '$1').replace(/\$\d+/g, '');
      const read = reading(plain);
      expect(
        read.problems.filter(({ severity }) => severity === 'error'),
        label,
      ).toEqual([]);
      expect(
        read.solutions[0]?.events.every((event) => event !== undefined),
        label,
      ).toBe(true);
    }
  });

  it('offers examples of notes among notes alone', () => {
    expect(labels('1/4 D5 ^')).toEqual(expect.arrayContaining(['artificial harmonic', 'natural harmonic', 'double stop']));
    for (const fixture of ['instrument: ^', 'D5 [^', 'E5<>^'])
      expect(offered(fixture).some(({ kind }) => kind === 'snippet')).toBe(false);
  });

  it('offers the ways of this note in its brackets, the easiest first, each with what it costs', () => {
    const ways = offered('1/4 D6o [^').filter(({ detail }) => /easiest|Costs/.test(detail));
    expect(ways.length).toBeGreaterThan(2);
    expect(ways[0]?.detail).toBe('The easiest way here.');
    const costs = ways.slice(1).map(({ detail }) => Number(/[\d.]+\d/.exec(detail)?.[0]));
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    for (const { text } of ways)
      expect(reading(`1/4 D6o [${text}]`).problems.filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  it('offers what is missing to the hints that stand already', () => {
    const ways = offered('1/4 B4 D5 [II ^]').filter(({ detail }) => /easiest|Costs/.test(detail));
    expect(ways.map(({ label }) => label)).toContain('3');
    expect(ways.every(({ label }) => !label.includes('II'))).toBe(true);
  });

  // Two octaves above the stopped note for a touch a fourth above, an octave and a fifth for a fifth: common practice, no source.
  it.each([
    ['1/4 E5<>^', 'A5', '1/4 E5<>A5', 'sounds E7'],
    ['1/4 E5<>^', 'B5', '1/4 E5<>B5', 'sounds B6'],
    ['1/4 <>^', 'D5', '1/4 <>D5', 'D5 on III'],
    ['1/4 E5<>A5 = ^', 'E7', '1/4 E5<>A5 = E7', 'sounds'],
    ['1/4 E5<>A5 =^', 'E7', '1/4 E5<>A5 = E7', 'sounds'],
    ['1/4 <>G4 = ^', 'D6', '1/4 <>G4 = D6', 'sounds'],
  ])('at %s offers %s', (fixture, label, wanted, detail) => {
    expect(taken(fixture, label)).toBe(wanted);
    expect(offered(fixture).find((offer) => offer.label === label)?.detail).toContain(detail);
  });

  it.each(['// a ^', '> Lift the ^', 'tempo: 1/4 = ^'])('offers nothing at %s', (fixture) => {
    expect(labels(fixture)).toEqual([]);
  });

  it('reads every setting, hint and interval that it offers', () => {
    for (const { text } of offered('x^').filter(({ kind }) => kind === 'setting'))
      expect(reading(`${text}x\nD5`).problems.filter(({ code }) => code === 'unknown-setting')).toEqual([]);
    for (const { text } of offered('D6o [^').filter(({ kind }) => kind === 'hint'))
      expect(reading(`D6o [${text}]`).problems.filter(({ code }) => code === 'unknown-hint')).toEqual([]);
    for (const { text } of offered('motif wave = D5\nwave up ^'))
      expect(reading(`motif wave = D5\nwave up ${text}`).problems).toEqual([]);
  });
});

describe('help inside brackets', () => {
  function active(fixture: string): string | undefined {
    const { text, at } = caret(fixture);
    const help = hintHelp(reading(text), at);
    const part = help?.parts[help.active];
    return part && help.label.slice(part.start, part.end);
  }

  it.each([
    ['D6o [^]', 'string I–IV'],
    ['D6o [II^]', 'string I–IV'],
    ['D6o [II ^]', 'finger 0–4, T, 1-4'],
    ['D6o [1-^]', 'finger 0–4, T, 1-4'],
    ['D6o [nat^]', 'open | stopped | natural | artificial'],
    ['D6o [fif^]', 'fourth | fifth | third …'],
    ['D6o [at 1^]', 'at 1/3'],
    ['D6o [3r^]', '3rd'],
  ])('at %s is about %s', (fixture, wanted) => {
    expect(active(fixture)).toBe(wanted);
  });

  it.each(['D6o^ [II]', 'D6o [II]^', '> [^', 'title: [^'])('is not shown at %s', (fixture) => {
    expect(active(fixture)).toBeUndefined();
  });
});
