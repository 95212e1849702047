import { createRequire } from 'node:module';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';
import type { Log } from 'sarif';
import { describe, expect, it } from 'vitest';
import { folder, passagework, UNPLAYABLE } from './command';

// Source: the OASIS schema of SARIF 2.1.0 (rtm.5), as the package @microsoft/jest-sarif carries it.
const schema = createRequire(import.meta.url)('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json');
// Its patterns are written for engines without the `u` flag.
const ajv = new Ajv({ strict: false, allErrors: true, unicodeRegExp: false });
addFormats(ajv as never);
const valid = ajv.compile(schema);

/** What the schema has against a log; empty when it is valid. */
function objections(log: unknown): unknown {
  return valid(log) ? [] : valid.errors;
}

describe('check --format sarif', () => {
  const files = { 'a b#1.passage': `// Ünïcode 𝄪 first\n${UNPLAYABLE}E5<>A5 = E6\ntempoo: 3\n`, 'clean.passage': '1/4 D5\n' };

  function log(...words: string[]): Log {
    using place = folder(files);
    return JSON.parse(passagework(['check', '--format', 'sarif', ...words, '.'], { cwd: place.path }).out);
  }

  it('the schema refuses what is not SARIF', () => {
    expect(objections({ version: '2.1.0' })).not.toEqual([]);
    expect(objections({ version: '2.1.0', runs: [{ tool: { driver: {} } }] })).not.toEqual([]);
  });

  it('is valid by the published schema, with findings and without', () => {
    expect(objections(log())).toEqual([]);
    const { out } = passagework(['check', '--format', 'sarif', '-'], { input: '1/4 D5\n' });
    expect(objections(JSON.parse(out))).toEqual([]);
  });

  it('points at the characters, names the rule and carries the fixes', () => {
    const [run] = log().runs;
    const claim = run!.results!.find(({ fixes }) => fixes?.some((fix) => JSON.stringify(fix).includes('E7')))!;
    expect(claim.locations![0]!.physicalLocation!.artifactLocation!.uri).toBe('a%20b%231.passage');
    expect(claim.locations![0]!.physicalLocation!.region).toMatchObject({ startLine: 3, endLine: 3 });
    expect(run!.tool.driver.rules![claim.ruleIndex!]!.id).toBe(claim.ruleId);
    expect(run!.columnKind).toBe('utf16CodeUnits');
  });

  it('explains every rule that it names by the page of the rule', () => {
    const { rules } = log().runs[0]!.tool.driver;
    expect(rules!.length).toBeGreaterThan(2);
    for (const { id, help } of rules!) {
      expect(help?.markdown, id).toMatch(/^# /);
      expect(passagework(['explain', id]).out.trim()).toBe(help?.markdown?.trim());
    }
    const { code, err } = passagework(['explain', 'no-such-rule']);
    expect(code).toBe(2);
    expect(err).toContain('lone-third');
  });

  it('says with a baseline what is new', () => {
    using place = folder(files);
    passagework(['check', '--write-baseline', 'known.json', '.'], { cwd: place.path });
    const { out } = passagework(['check', '--format', 'sarif', '--baseline', 'known.json', '.'], { cwd: place.path });
    const read = JSON.parse(out) as Log;
    expect(objections(read)).toEqual([]);
    expect(new Set(read.runs[0]!.results!.map(({ baselineState }) => baselineState))).toEqual(new Set(['unchanged']));
  });
});
