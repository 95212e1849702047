import { describe, expect, it } from 'vitest';
import { readProject, withProject } from '../../server/workspace/project';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';

describe('a project file', () => {
  it('says what its collection agrees on', () => {
    const { project, faults } = readProject(
      '{ "$schema": "x", "instrument": "viola", "hand": "small", "safeChance": 0.9, "rules": { "lone-third": "off" }, "exclude": ["drafts/"], "baseline": "known.json" }',
    );
    expect(faults).toEqual([]);
    expect(project).toEqual({
      instrument: 'viola',
      hand: 'small',
      safeChance: 0.9,
      rules: { 'lone-third': 'off' },
      exclude: ['drafts/'],
      baseline: 'known.json',
    });
    const settings = withProject(
      { ...DEFAULT_SETTINGS, hand: 'large', rules: { beating: 'off', 'lone-third': 'error' } },
      project,
    );
    expect(settings).toMatchObject({ instrument: 'viola', hand: 'small', safeChance: 0.9 });
    expect(settings.rules).toEqual({ beating: 'off', 'lone-third': 'off' });
    expect(withProject(DEFAULT_SETTINGS, readProject('{}').project)).toEqual(DEFAULT_SETTINGS);
  });

  it.each([
    ['{', /^it is not JSON/],
    ['[]', /not a JSON object/],
    ['{ "rule": {} }', /no setting “rule”; did you mean rules\?/],
    ['{ "rules": { "lone-thrid": "off" } }', /no check “lone-thrid”; did you mean lone-third\?/],
    ['{ "rules": { "lone-third": "loud" } }', /lone-third can be error, .* or off, and not "loud"/],
    ['{ "instrument": "trumpet" }', /^instrument: /],
    ['{ "hand": 3 }', /^hand: it is not text/],
    ['{ "safeChance": 2 }', /^safeChance: .*above 0 and below 1/],
    ['{ "exclude": "a" }', /^exclude: .*list of patterns/],
    ['{ "baseline": "" }', /^baseline: /],
    ['{ "__proto__": { "hand": "small" }, "constructor": 1 }', /no setting “constructor”/],
  ])('%s: what is wrong is told', (text, reason) => {
    const { faults } = readProject(text);
    expect(faults.join('\n')).toMatch(reason);
  });
});
