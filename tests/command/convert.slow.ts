import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CLEAN, folder, passagework } from './command';

describe('convert', () => {
  it('writes a score beside the passage and reads it back to the same music', () => {
    using place = folder({ 'tide.passage': 'passage: Tide\nmeter: 4/4\n1/4 D5 A5o [III 4] E5<>A5 [II 1-4] rest |\n' });
    const at = { cwd: place.path };
    expect(passagework(['convert', 'tide.passage'], at)).toMatchObject({ code: 0, out: 'tide.passage -> tide.musicxml\n' });
    const score = readFileSync(join(place.path, 'tide.musicxml'), 'utf8');
    expect(score).toMatch(/<harmonic/);
    expect(passagework(['convert', 'tide.musicxml', '--out', 'back.passage'], at).code).toBe(0);
    const solved = ['tide.passage', 'back.passage'].map((name) => {
      const { passages } = JSON.parse(passagework(['solve', '--format', 'json', '--fail-on', 'never', name], at).out);
      return passages[0].events.map(({ bar, beat, duration, notes }: Record<string, unknown>) => ({
        bar,
        beat,
        duration,
        notes,
      }));
    });
    expect(solved[1]).toEqual(solved[0]);
  });

  it('writes what sounds, as MIDI and as a recording', () => {
    using place = folder({ 'a.passage': CLEAN });
    const at = { cwd: place.path };
    expect(passagework(['convert', '--to', 'midi', 'a.passage'], at).code).toBe(0);
    expect(passagework(['convert', '--to', 'wav', 'a.passage'], at).code).toBe(0);
    expect(readFileSync(join(place.path, 'a.mid')).subarray(0, 4).toString()).toBe('MThd');
    // The ending says enough.
    expect(passagework(['convert', 'a.passage', '--out', 'b.mid'], at).code).toBe(0);
    expect(readFileSync(join(place.path, 'b.mid'))).toEqual(readFileSync(join(place.path, 'a.mid')));
    const wav = readFileSync(join(place.path, 'a.wav'));
    expect([wav.subarray(0, 4).toString(), wav.subarray(8, 12).toString()]).toEqual(['RIFF', 'WAVE']);
  });

  it('makes a score of each passage of a file', () => {
    using place = folder({ 'two.passage': 'passage: Ebb\n1/4 D5\npassage: Flood\n1/4 E5\n' });
    expect(passagework(['convert', 'two.passage'], { cwd: place.path }).code).toBe(0);
    expect(['two-1.musicxml', 'two-2.musicxml'].every((name) => existsSync(join(place.path, name)))).toBe(true);
    const { code, err } = passagework(['convert', '-'], { input: 'passage: Ebb\n1/4 D5\npassage: Flood\n1/4 E5\n' });
    expect(code).toBe(2);
    expect(err).toMatch(/2 passages.*--out/);
  });

  it('reads every tune of an ABC file, and the voice of a divided part that is asked for', () => {
    const tunes = 'X:3\nT:Ebb\nK:D\nV:1\nd4 & A4 |\n\nX:7\nT:Flood\nK:D\ne4 |\n';
    using place = folder({ 'tides.abc': tunes });
    const at = { cwd: place.path };
    expect(passagework(['convert', '--tune', 'all', '--divisi', 'lower', 'tides.abc'], at).code).toBe(0);
    expect(readFileSync(join(place.path, 'tides-3.passage'), 'utf8')).toMatch(/1\/2 A4 \|/);
    expect(readFileSync(join(place.path, 'tides-7.passage'), 'utf8')).toMatch(/1\/2 E5 \|/);
    expect(passagework(['convert', '--tune', 'all', '-'], { input: tunes })).toMatchObject({ code: 2 });
    const { code, err } = passagework(['convert', '--divisi', 'middle', 'tides.abc', '--force'], at);
    expect([code, err]).toEqual([2, expect.stringMatching(/--divisi: middle is not one of upper, lower, both/)]);
  });

  it('never writes over a file unasked', () => {
    using place = folder({ 'a.passage': CLEAN, 'a.musicxml': 'mine' });
    const at = { cwd: place.path };
    const { code, err } = passagework(['convert', 'a.passage'], at);
    expect(code).toBe(2);
    expect(err).toMatch(/a\.musicxml is there already.*--force/);
    expect(readFileSync(join(place.path, 'a.musicxml'), 'utf8')).toBe('mine');
    expect(passagework(['convert', '--force', 'a.passage'], at).code).toBe(0);
    expect(readFileSync(join(place.path, 'a.musicxml'), 'utf8')).toContain('<score-partwise');
  });

  it('goes from standard input to standard output, either way', () => {
    const score = passagework(['convert', '-'], { input: CLEAN });
    expect(score.out).toMatch(/^<\?xml/);
    const back = passagework(['convert', '-'], { input: score.out });
    expect(back.out).toMatch(/D5.*E5.*F#5.*G5/);
  });

  it.each([
    ['torn', '<?xml version="1.0"?><score-partwise><part'],
    ['no score', '<?xml version="1.0"?><html/>'],
    [
      'an entity bomb',
      '<?xml version="1.0"?><!DOCTYPE s [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;&a;">]><score-partwise>&b;</score-partwise>',
    ],
  ])('says what is wrong with a score that is %s', (_, text) => {
    using place = folder({ 'bad.musicxml': text });
    const { code, out, err } = passagework(['convert', 'bad.musicxml'], { cwd: place.path });
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/^passagework: bad\.musicxml: /);
    expect(err).not.toMatch(/\n\s+at /);
  });
});
