import { afterAll, describe, expect, it } from 'vitest';
import type { Case } from './case';
import { HELD_BACK, TABLE } from './cases/table';
import { readFingering } from './fingering';
import { NOT_YET } from './not-yet';
import { type Performance, perform, written } from './played';

/**
 * Holds the solver against the table of common practice. Cases it does not meet yet are listed by name in `not-yet.ts`: a listed
 * case that is met fails until it is taken off the list, one that is not listed must be met. `UNMET=1 npx vitest run
 * tests/common-practice` prints each case not yet met with what the solver chose and what would have been accepted.
 */
const ALL = [...TABLE, ...HELD_BACK];
const performances = new Map(ALL.map((one) => [one, perform(one.passage)]));

/** Nothing where a case is met; else case, choice and what would do, to be read in a terminal. */
function account({ name, accepted = [], holds = [], why, passage }: Case, performance: Performance): string {
  const faults = holds.flatMap(({ says, fault }) => {
    const found = fault(performance);
    return found ? [`  asked:    ${says}\n  but:      ${found}`] : [];
  });
  const played = accepted.length === 0 || accepted.some((text) => readFingering(text).matches(performance.played));
  if (played && faults.length === 0) return '';
  return [
    name,
    `  passage:  ${passage.trim().replaceAll(/\s*\n\s*/g, ' ; ')}`,
    `  got:      ${written(performance.played)}`,
    ...(played ? [] : accepted.map((text) => `  accepted: ${text}`)),
    ...faults,
    `  why:      ${why}`,
  ].join('\n');
}

describe('the table itself', () => {
  it('has at least 60 cases, and 15 more that are held back', () => {
    expect(TABLE.length).toBeGreaterThanOrEqual(60);
    expect(HELD_BACK.length).toBeGreaterThanOrEqual(15);
  });

  it('names every case once, and lists as not yet met only cases that there are', () => {
    const names = ALL.map(({ name }) => name);
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([]);
    expect([...NOT_YET].filter((name) => !names.includes(name))).toEqual([]);
  });

  it.each(ALL.map((one) => [one.name, one] as const))('%s: can be read and played, and asks for something', (_, one) => {
    const { played, unplayable } = performances.get(one)!;
    expect(unplayable).toEqual([]);
    expect((one.accepted ?? []).length + (one.holds ?? []).length).toBeGreaterThan(0);
    for (const text of one.accepted ?? []) {
      const [least, most] = readFingering(text).notes;
      expect(
        least <= played.length && played.length <= most,
        `${text} is for ${least} notes, the passage has ${played.length}`,
      ).toBe(true);
    }
  });
});

for (const [part, cases] of [['', TABLE] as const, [', held back from tuning', HELD_BACK] as const]) {
  const met = cases.filter(({ name }) => !NOT_YET.has(name));
  for (const source of new Set(met.map((one) => one.source))) {
    describe(`${source} — fingerings that the trade would accept${part}`, () => {
      it.each(met.filter((one) => one.source === source).map((one) => [one.name, one] as const))('%s', (_, one) => {
        const unmet = account(one, performances.get(one)!);
        if (unmet) throw new Error(`Not as the trade would play it:\n${unmet}`);
      });
    });
  }
}

describe('not yet as the trade would play it: take a case off the list in not-yet.ts once it is', () => {
  it.each(ALL.filter(({ name }) => NOT_YET.has(name)).map((one) => [one.name, one] as const))('%s', (name, one) => {
    expect(account(one, performances.get(one)!), `${name} is met: take it out of not-yet.ts`).not.toBe('');
  });
});

afterAll(() => {
  const count = (cases: readonly Case[]) => {
    const met = cases.filter((one) => account(one, performances.get(one)!) === '');
    return `${met.length} of ${cases.length}`;
  };
  console.log(`Common practice: ${count(TABLE)} cases met, ${count(HELD_BACK)} of those held back.`);
  if (!process.env.UNMET) return;
  const unmet = ALL.map((one) => account(one, performances.get(one)!)).filter((text) => text !== '');
  console.log(unmet.join('\n\n'));
});
