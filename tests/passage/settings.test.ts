import { describe, expect, it } from 'vitest';
import { pitchName } from '../../server/music/pitch';
import { exactly } from '../../server/music/time';
import { resolve } from '../../server/passage/resolve';
import { read } from './reading';

describe('where settings hold', () => {
  it('the file, its passages, and from a bar on', () => {
    const text = [
      'title: Harbour studies',
      'instrument: viola 16in',
      'pitch: A4 = 442',
      'tempo: 1/4 = 60',
      'passage: Low tide',
      'hand: small',
      'key: D minor',
      '1/4 D5 |',
      'tempo: 1/8 = 60',
      'harmonics: all',
      'D5 |',
      'passage: High tide',
      'instrument: violin',
      '1/4 D5 |',
    ].join('\n');
    const { passages, title, settings, problems } = read(text);
    expect(problems).toEqual([]);
    expect(title).toBe('Harbour studies');
    const [low, high] = passages;
    expect(low?.setup).toMatchObject({ a4: 442, hand: { name: 'small' }, instrument: { name: 'viola' } });
    expect(high?.setup).toMatchObject({ a4: 442, hand: { name: 'medium' }, instrument: { name: 'violin' } });
    expect([low?.key, high?.key]).toEqual([{ tonic: { letter: 'D', alter: 0 }, mode: 'minor' }, undefined]);
    expect(low?.events.map(({ spec }) => [spec.seconds, spec.notes[0]?.harmonic])).toEqual([
      [1, 'no'],
      [2, 'must'],
    ]);
    expect(high?.events.map(({ spec }) => [spec.seconds, spec.notes[0]?.harmonic])).toEqual([[1, 'no']]);
    expect(settings.map(({ key, scope, passage }) => `${key} ${scope} ${passage ?? ''}`.trim())).toEqual([
      'title file',
      'instrument file',
      'pitch file',
      'tempo file',
      'hand passage 0',
      'key passage 0',
      'tempo onward 0',
      'harmonics onward 0',
      'instrument passage 1',
    ]);
    const hand = settings.find(({ key }) => key === 'hand');
    expect(text.slice(hand?.valueSpan.start, hand?.valueSpan.end)).toBe('small');
    expect(text.slice(hand?.keySpan.start, hand?.keySpan.end)).toBe('hand');
  });

  it('an unknown value leaves the rest of the file as it is', () => {
    const { passages, settings } = read('instrument: violin 9/8\nhand: large\nD5');
    expect(passages[0]?.setup).toMatchObject({ hand: { name: 'large' }, instrument: { name: 'violin' } });
    expect(settings[0]).not.toHaveProperty('value');
  });

  it('a scordatura belongs to its instrument', () => {
    const strings = (text: string) =>
      read(text)
        .passages.at(-1)
        ?.setup.instrument.strings.map(({ pitch }) => pitchName(pitch));
    expect(strings('tuning: A3 D4 A4 E5\nD5')).toEqual(['E5', 'A4', 'D4', 'A3']);
    expect(strings('tuning: A3 D4 A4 E5\npassage: Quay\ninstrument: cello\nD3')).toEqual(['A3', 'D3', 'G2', 'C2']);
    expect(strings('tuning: A3 D4 A4 E5\npassage: Quay\ninstrument: violin 3/4\nD5')).toEqual(['E5', 'A4', 'D4', 'A3']);
  });

  it('measured reaches make the hand', () => {
    const reaches = read('hand: 1-2 48, 1-3 72, 1-4 98\nD5').passages[0]?.setup.hand.reaches;
    expect(reaches?.['1-4']?.most).toBe(98);
    expect(reaches?.['1-2']?.most).toBe(48);
    expect(reaches?.['T-1']).toBeUndefined();
  });

  it("a child's hand goes by age, and comes with a fractional size", () => {
    const hand = (text: string) => read(text).passages[0]?.setup.hand.name;
    expect(hand('hand: child 7\nD5')).toBe('child 7');
    expect(hand('instrument: violin 1/2\nD5')).toBe('child 9');
    expect(hand('instrument: violin 285mm\nD5')).toBe('child 9');
    expect(hand('instrument: violin 325mm\nD5')).toBe('medium');
    expect(hand('instrument: violin 1/2\nhand: small\nD5')).toBe('small');
    const { problems } = read('hand: child 30\nD5');
    expect(problems[0]?.message).toContain('an age from 3 to 15');
  });

  it('from outside: defaults give way to the file, all else holds against it', () => {
    const text = 'hand: small\ntempo: 1/4 = 60\n1/4 D5 |\ntempo: 1/4 = 30\nD5 |';
    const tempo = { beat: exactly(1, 4), bpm: 120 };
    const forced = read(text, { tempo, hand: { kind: 'named', name: 'large' }, harmonics: 'allowed' }).passages[0];
    expect(forced?.setup.hand.name).toBe('large');
    expect(forced?.events.map(({ spec }) => [spec.seconds, spec.notes[0]?.harmonic])).toEqual([
      [0.5, 'may'],
      [0.5, 'may'],
    ]);
    const silent = read('hand: small\nD5', {
      defaults: { hand: { kind: 'named', name: 'large' }, instrument: { family: 'cello' } },
    });
    expect(silent.passages[0]?.setup).toMatchObject({ hand: { name: 'small' }, instrument: { name: 'cello' } });
    // A change from outside is not missed for the sake of what is remembered.
    expect(
      resolve(silent.tree, silent, { defaults: { instrument: { family: 'viola' } } }).passages[0]?.setup.instrument.name,
    ).toBe('viola');
  });
});
