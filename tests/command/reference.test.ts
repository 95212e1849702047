/** What is made from the code is up to date: `UPDATE_REFERENCE=1 npx vitest run tests/command/reference.test.ts` makes it anew. */
import { readFileSync, writeFileSync } from 'node:fs';
import Ajv from 'ajv';
import { describe, expect, it } from 'vitest';
import manifest from '../../package.json';
import { changes } from '../../server/command/diff';
import { reportOf } from '../../server/command/json';
import { check, format, solve } from '../../server/command/library';
import { study } from '../../server/command/study';
import { PROJECT_MEMBERS, readProject } from '../../server/workspace/project';
import { MADE } from './reference';

const ajv = new Ajv({ allErrors: true, strict: false });
const schemaAt = (name: string) => ajv.compile(JSON.parse(readFileSync(`client/schemas/${name}.schema.json`, 'utf8')));

describe('made from the code', () => {
  it.each(Object.entries(MADE))('%s', (path, make) => {
    if (process.env.UPDATE_REFERENCE) writeFileSync(path, make());
    const text = readFileSync(path, 'utf8');
    // Where lines break in JSON is the formatter's business.
    if (path.endsWith('.json')) expect(JSON.parse(text)).toEqual(JSON.parse(make()));
    else expect(text).toBe(make());
  });

  it('every member of a project file is in its schema, and the schema takes what the program takes', () => {
    const valid = schemaAt('passagework');
    const { properties } = JSON.parse(readFileSync('client/schemas/passagework.schema.json', 'utf8'));
    expect(Object.keys(properties)).toEqual(PROJECT_MEMBERS);
    const guide = readFileSync('client/guide/command.md', 'utf8');
    const [, example = ''] = /^```json\n([\s\S]*?)^```$/m.exec(guide) ?? [];
    for (const text of [example, '{}', '{ "safeChance": 0.5 }'])
      expect([valid(JSON.parse(text)), readProject(text).faults]).toEqual([true, []]);
    for (const text of [
      '{ "rule": {} }',
      '{ "rules": { "x": "off" } }',
      '{ "rules": { "lone-third": "loud" } }',
      '{ "safeChance": 1 }',
      '{ "exclude": "a" }',
      '{ "baseline": "" }',
      '[]',
    ])
      expect([text, valid(JSON.parse(text)), readProject(text).faults.length > 0]).toEqual([text, false, true]);
    expect(manifest.contributes.jsonValidation).toEqual([
      { fileMatch: 'passagework.json', url: './client/schemas/passagework.schema.json' },
    ]);
  });
});

describe('the schema of JSON answers', () => {
  const valid = schemaAt('report');
  const TEXT = 'passage: Tide\nmotif gull = D5 F#6o [third]\n1/4 gull E5<>A5 D6o+A6o G4 | 1/8 C3 E7o rest E6o_ E6o\n';

  it('takes what solve, check and diff say', () => {
    const report = solve(TEXT, { best: 3 });
    expect([valid(report), valid.errors]).toEqual([true, null]);
    expect(report.passages[0]?.best).toHaveLength(3);
    expect([valid({ passages: [], diagnostics: check(TEXT) }), valid.errors]).toEqual([true, null]);
    const chords = solve('1/4 G3+D4+B4+G5 G3+D4+B4 D4+A4').passages[0]?.events ?? [];
    expect(chords.map(({ breaking }) => breaking !== undefined)).toEqual([true, true, false]);
    const asked = solve('1/4 G3+D4+B4 [1+2]');
    expect(asked.passages[0]?.events[0]?.breaking).toMatchObject({ strokes: '1+2', asked: true });
    expect([valid(asked), valid.errors]).toEqual([true, null]);
    const version = (text: string) => {
      const studied = study(text, {});
      return reportOf(studied, { chance: 0.8 }).passages.map((each) => ({ report: each, asked: [] }));
    };
    const found = changes(version(TEXT), version(`${TEXT}1/4 A5\n`));
    expect(found.length).toBeGreaterThan(0);
    expect([valid({ changes: found }), valid.errors]).toEqual([true, null]);
  });

  it('refuses what is none of them', () => {
    for (const other of [
      {},
      [],
      { passages: [] },
      { passages: [{ title: 'x' }], diagnostics: [] },
      { changes: [{ kind: 'odd', passage: '' }] },
      { hands: [], players: [], passages: [] },
    ])
      expect([other, valid(other)]).toEqual([other, false]);
    const report = JSON.parse(JSON.stringify(solve('1/4 D5')));
    report.passages[0].events[0].notes[0].string = 'V';
    expect(valid(report)).toBe(false);
  });
});

describe('the library', () => {
  it('fingers, checks and formats a text, and says what it can’t read of its options', () => {
    expect(solve('1/4 D5', { hand: 'small' }).passages[0]?.events[0]?.notes[0]?.sounding).toBe('D5');
    expect(solve('1/4 C3', { instrument: 'cello' }).diagnostics).toEqual([]);
    expect(check('1/4 C3')).toMatchObject([{ code: 'octave-slip', severity: 'error', line: 1, column: 5 }]);
    expect(check('1/4 C3', { rules: { 'octave-slip': 'off' } })).toEqual([]);
    expect(format('1/4   D5')).toBe('1/4 D5');
    expect(() => solve('D5', { hand: 'huge' })).toThrow(/^hand: /);
    expect(() => solve('D5', { tempo: 'fast' })).toThrow(/^tempo: /);
    expect(() => solve('D5', { chance: 1 })).toThrow(/^chance: /);
    expect(() => solve('D5', { best: 0.5 })).toThrow(/^best: /);
    expect(() => check('D5', { instrument: 'trumpet' })).toThrow(/^instrument: /);
    expect(() => check('D5', { rules: { odd: 'off' } })).toThrow(/no check odd/);
  });
});
