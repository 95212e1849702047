import { nearest } from '../../grammar/nearest';
import { quoted } from '../../grammar/problems';
import { type Fault, fault, type Reading } from '../../grammar/values/read-value';
import type { NumberNode, ReachNode, ValueNodes } from '../../grammar/values/value-tree';
import type { Family } from '../instrument/instrument';
import { t } from '../l10n/translate';
import { CHILD_AGES } from './constants';
import type { FingerPair } from './hand';
import { fingerPairs, type HandChoice } from './hands';

/** mm for the pairs of fingers that were measured. */
export type Reaches = Readonly<Partial<Record<FingerPair, number>>>;

/** mm between two fingers of one hand; outside of this it is a slip of the pen. Assumption. */
export const REACH = { least: 10, most: 300 } as const;

/** Pairs of fingers of which the first lies inside the second. */
export const NESTED: readonly (readonly [FingerPair, FingerPair])[] = [
  ['1-2', '1-3'],
  ['1-3', '1-4'],
  ['2-3', '2-4'],
  ['2-3', '1-3'],
  ['2-4', '1-4'],
  ['3-4', '2-4'],
  ['T-1', 'T-2'],
  ['T-2', 'T-3'],
];

export function chooseHand(node: ValueNodes['hand'], family: Family): Reading<HandChoice> {
  if ('word' in node) return { value: { kind: 'named', name: node.word } };
  if ('age' in node) return chooseChild(node.age);
  const most = measuredReaches(node.reaches, family);
  return 'value' in most ? { value: { kind: 'measured', most: most.value } } : most;
}

function chooseChild(age: NumberNode): Reading<HandChoice> {
  const { least, most } = CHILD_AGES;
  if (age.value >= least && age.value <= most) return { value: { kind: 'child', age: age.value } };
  const why = t("a child's hand is given by an age from {least} to {most}; older hands are small, medium, large, or measured", {
    least,
    most,
  });
  return fault(age, why, [`${age.value < least ? least : most}`]);
}

/** Reaches that a hand can have on an instrument of the family; what can't be is told at its own fingers or number. */
export function measuredReaches(nodes: readonly ReachNode[], family: Family): Reading<Reaches> {
  const reaches: Partial<Record<FingerPair, number>> = {};
  const faults: Fault[] = [];
  const tell = (found: Reading<never>) => faults.push(...('faults' in found ? found.faults : []));
  const pairs = fingerPairs(family);
  const written = nodes.map(({ pair }) => pair.text);
  for (const { pair, mm } of nodes) {
    const fingers = pairs.find((known) => known === pair.text);
    if (pair.text.startsWith('T') && family !== 'cello') {
      tell(
        fault(
          pair,
          t('{pair} measures the thumb, which stays behind the neck of a {family}; leave it out', {
            pair: quoted(pair.text),
            family,
          }),
        ),
      );
    } else if (!fingers) {
      const free = pairs.filter((known) => !written.includes(known));
      // The lower finger stands first; a pair the wrong way round means itself and nothing else.
      const turned = pair.text.split('-').reverse().join('-');
      const near = pairs.some((known) => known === turned)
        ? free.filter((known) => known === turned)
        : [...nearest(pair.text, free), ...free.filter((known) => known[0] === pair.text[0])];
      tell(
        fault(
          pair,
          t('{pair} names no two fingers; a reach is measured between {pairs}', {
            pair: quoted(pair.text),
            pairs: pairs.join(', '),
          }),
          near,
        ),
      );
    } else if (mm.value < REACH.least || mm.value > REACH.most) {
      const why = t('{mm} mm is not a reach of a hand: it must be from {least} to {most} mm', {
        mm: mm.value,
        least: REACH.least,
        most: REACH.most,
      });
      tell(fault(mm, why, mm.value > REACH.most && mm.value / 10 <= REACH.most ? [`${mm.value / 10}`] : []));
    } else reaches[fingers] = mm.value;
  }
  for (const [inner, outer] of faults.length === 0 ? NESTED : []) {
    const [a, b] = [reaches[inner], reaches[outer]];
    const place = nodes.findLast(({ pair }) => pair.text === outer);
    if (a === undefined || b === undefined || a <= b || !place) continue;
    const why = t("fingers {inner} can't reach further ({a} mm) than fingers {outer} ({b} mm); measure them again", {
      inner,
      a,
      outer,
      b,
    });
    tell(fault(place, why));
    break;
  }
  return faults.length > 0 ? { faults } : { value: reaches };
}
