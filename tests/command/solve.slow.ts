import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Report } from '../../server/command/report';
import { folder, passagework, UNPLAYABLE } from './command';

function solved(input: string, ...words: string[]): Report {
  return JSON.parse(passagework(['solve', '--format', 'json', ...words, '-'], { input }).out);
}

const SCALE = 'harmonics: all\n1/4 D6 E6 F#6 G6 A6 B6 C#7 D7\n';

describe('solve --format json', () => {
  it('fingers a scale of harmonics from D6 to D7 under one hand', () => {
    const [passage] = solved(SCALE).passages;
    expect(passage?.events.map(({ notes }) => notes[0]?.sounding)).toEqual(['D6', 'E6', 'F#6', 'G6', 'A6', 'B6', 'C#7', 'D7']);
    expect(passage?.events.every(({ notes }) => notes[0]?.kind === 'natural' || notes[0]?.kind === 'artificial')).toBe(true);
    // Common practice, no source: the whole scale lies in third position, naturals and one fourth harmonic on each string.
    const kinds = passage?.events.map(({ notes: [note] }) => note?.touch?.fraction);
    expect(kinds).toEqual(['1/4', '1/3', '2/5', '1/4', '1/4', '1/3', '2/5', '1/4']);
    expect(passage?.events.map(({ notes: [note] }) => note?.interval)).toEqual([
      undefined,
      undefined,
      undefined,
      'fourth',
      undefined,
      undefined,
      undefined,
      'fourth',
    ]);
    expect(new Set(passage?.events.map(({ position }) => position)).size).toBe(1);
  });

  it('gives terms that add up to the cost', () => {
    const [passage] = solved(
      'tempo: 1/4 = 132\n1/8 D5 F#5 A5 D6o slur(1/16 E6o F#6o G6o A6o) 1/4 D7o E6o+B6o rest E5<>A5\n',
    ).passages;
    const shares = passage!.events.flatMap(({ terms }) => Object.values(terms ?? {}));
    expect(shares.length).toBeGreaterThan(8);
    expect(shares.reduce((sum, nats) => sum + nats, 0)).toBeCloseTo(passage!.cost, 9);
    expect(passage!.clean).toBeGreaterThan(0);
    expect(passage!.clean).toBeLessThan(1);
  });

  it('names line, column, bar and beat of every event', () => {
    const [first, second] = solved(
      'instrument: violin\n\nmeter: 2/4\ntempo: 1/4 = 60\n1/4 D5 E5 |\n  1/8 F#5 G5 1/4 A5 ||\n',
    ).passages[0]!.events.slice(2);
    expect([first?.line, first?.column, first?.bar, first?.beat, first?.duration]).toEqual([6, 7, 2, '1', '1/8']);
    expect([second?.column, second?.beat]).toEqual([11, '3/2']);
  });

  it('offers alternatives, cheapest first, none of them the chosen one', () => {
    const event = solved('1/4 A5o\n').passages[0]!.events[0]!;
    const extra = event.alternatives!.map(({ extraCost }) => extraCost);
    expect(extra.length).toBeGreaterThan(2);
    expect(extra).toEqual([...extra].sort((a, b) => a - b));
    expect(Math.min(...extra)).toBeGreaterThanOrEqual(0);
    expect(event.alternatives!.map(({ notes }) => JSON.stringify(notes))).not.toContain(
      JSON.stringify(event.notes.map(({ speaks: _, ...note }) => note)),
    );
  });

  it('keeps what can be played when one note can not, and says which', () => {
    const { passages, diagnostics } = solved(UNPLAYABLE);
    expect(passages[0]?.events.map(({ notes }) => notes.length)).toEqual([0, 1]);
    expect(passages[0]?.clean).toBe(0);
    expect(diagnostics[0]).toMatchObject({ severity: 'error', line: 1, column: 5 });
  });

  it('decodes a printed artificial harmonic, and contradicts a wrong claim with a fix', () => {
    // E5 may also be the open E string, so the string is said.
    expect(solved('E5<>A5\n').passages[0]?.events[0]?.notes[0]?.sounding).toBe('E7');
    expect(solved('E5<>A5 [II 1-4]\n').passages[0]?.events[0]?.notes[0]).toMatchObject({
      sounding: 'E7',
      kind: 'artificial',
      interval: 'fourth',
    });
    const [wrong] = solved('E5<>A5 = E6\n').diagnostics;
    expect(wrong).toMatchObject({ severity: 'error', line: 1, column: 8, endColumn: 12 });
    expect(wrong?.fixes.join()).toContain('E7');
  });

  it('answers an empty text with an empty report', () => {
    expect(solved('')).toMatchObject({ diagnostics: [] });
    expect(passagework(['solve', '-'], { input: '' }).code).toBe(0);
  });

  it('ranks the best fingerings of a passage, the chosen one first', () => {
    const [passage] = solved('1/4 D5 A5o [III] D6o\n', '--best', '5').passages;
    const best = passage!.best!;
    expect(best).toHaveLength(5);
    expect(best[0]!.cost).toBeCloseTo(passage!.cost, 9);
    expect(best[0]!.events).toEqual(passage!.events.map(({ notes }) => notes));
    expect(best.map(({ cost }) => cost)).toEqual(best.map(({ cost }) => cost).sort((a, b) => a - b));
    expect(new Set(best.map(({ events }) => JSON.stringify(events))).size).toBe(5);
  });

  it('is the same every time', () => {
    expect(passagework(['solve', '--format', 'json', '-'], { input: SCALE }).out).toBe(
      passagework(['solve', '--format', 'json', '-'], { input: SCALE }).out,
    );
  });
});

describe('--hand and --tempo override the file', () => {
  const STRETCH = 'hand: large\ntempo: 1/4 = 60\n1/4 A3<>E4 [IV 1-4]\n';

  it('a small hand can not do what the file says a large one can', () => {
    expect(solved(STRETCH).passages[0]?.events[0]?.notes).toHaveLength(1);
    const { passages, diagnostics } = solved(STRETCH, '--hand', '1-4 60');
    expect(passages[0]?.events[0]?.notes).toEqual([]);
    expect(diagnostics.some(({ message }) => /60/.test(message))).toBe(true);
  });

  it('a faster tempo is riskier and is the one reported', () => {
    const input = 'tempo: 1/4 = 60\n1/8 D6o A6o D7o A6o D6o A6o\n';
    const [slow] = solved(input).passages;
    const [fast] = solved(input, '--tempo', '1/4 = 240').passages;
    expect(slow?.tempo).toEqual({ beat: '1/4', bpm: 60 });
    expect(fast?.tempo).toEqual({ beat: '1/4', bpm: 240 });
    expect(fast!.clean).toBeLessThan(slow!.clean);
    expect(solved(input, '--tempo', '240').passages[0]?.tempo).toEqual({ beat: '1/4', bpm: 240 });
  });

  it('keeps places in the text as they were', () => {
    expect(solved(STRETCH, '--hand', 'small', '--tempo', '90').passages[0]?.events[0]).toMatchObject({ line: 3, column: 5 });
  });
});

describe('solve as text', () => {
  it('prints a table with a row for every note and no colour codes when piped', () => {
    const { out, code } = passagework(['solve', '-'], { input: SCALE });
    expect(code).toBe(0);
    expect(out).toMatch(/^bar +note +how +string +fingers +position +mm +clean +why +findings$/m);
    expect(out.split('\n').filter((line) => /^\d+:/.test(line))).toHaveLength(8);
    expect(out).toMatch(
      /G6 +fourth harmonic +III +\d-\d +3rd +[\d.]+-[\d.]+ +.*(nearly always|times in \d+) +keeps 3rd position/,
    );
    expect(out).not.toContain('\u001b');
  });

  it('tells other fingerings by where they part from the best', () => {
    const { out } = passagework(['solve', '--best', '3', '-'], { input: '1/4 D5 A5 D6o\n' });
    expect(out).toMatch(/^fingering 2, costs \d+\.\d\d more: 1:\d \w+ .* on I/m);
    expect(out).toMatch(/^fingering 3, /m);
    expect(out).not.toMatch(/^fingering 4, /m);
    expect(passagework(['solve', '--best', '0', '-'], { input: '1/4 D5\n' })).toMatchObject({ code: 2 });
  });

  it('writes a page that needs nothing but itself, and says where', () => {
    using place = folder({ 'a.passage': SCALE });
    const { out } = passagework(['solve', 'a.passage', '--page', 'out/a.html'], { cwd: place.path });
    const page = join(place.path, 'out/a.html');
    expect(out).toContain(`Page: ${page}`);
    expect(existsSync(page)).toBe(true);
    const html = readFileSync(page, 'utf8');
    expect(html).toMatch(/^<!doctype html>/i);
    expect(html).toContain('<svg');
    expect(html).not.toMatch(/(?:src|href)\s*=\s*["']?(?:https?:)?\/\//i);
  });
});
