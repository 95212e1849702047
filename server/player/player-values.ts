import type { PlayerKey } from '../../grammar/player-keys';
import { fault, type Reading } from '../../grammar/values/read-value';
import type { NumberNode, Style, ValueNode, ValueNodes } from '../../grammar/values/value-tree';
import { chooseHand, measuredReaches } from '../hand/choice';
import type { HandChoice } from '../hand/hands';
import type { Comfort } from '../hand/own-hand';
import type { Level } from '../hand/skill';
import { chooseInstrument, type InstrumentChoice } from '../instrument/choice';
import type { Family } from '../instrument/instrument';
import { t } from '../l10n/translate';

/** What the lines of a player file say once read, attempts apart. */
export interface PlayerValues {
  readonly name: string;
  readonly instrument: InstrumentChoice;
  /** In the player's own words. */
  readonly strings: string;
  readonly hand: HandChoice;
  readonly comfort: Comfort;
  readonly level: Level;
  readonly style: Style;
  /** Cents. */
  readonly 'in tune': number;
  /** mm, standard deviation. */
  readonly landing: number;
  /** mm, standard deviation. */
  readonly spacing: number;
}

/** Shares of a reach that somebody may call comfortable, per cent. Assumption. */
const COMFORT = { least: 30, most: 100 } as const;
/** Cents either side within which a stopped note passes: from a tuner's accuracy to a quarter tone. Assumption. */
const IN_TUNE = { least: 2, most: 50 } as const;
/** mm of a landing error: below, nobody can measure it; above, no note would be found. Assumption. */
const LANDING = { least: 0.2, most: 10 } as const;

/** Which values a player can have, of those that are well written. */
interface Range {
  readonly least: number;
  readonly most: number;
}

const CHOOSE: { readonly [K in PlayerKey]: (parts: never, family: Family) => Reading<PlayerValues[K]> } = {
  name: ({ text }: ValueNodes['text']) => ({ value: text }),
  instrument: chooseInstrument,
  strings: ({ text }: ValueNodes['text']) => ({ value: text }),
  hand: chooseHand,
  comfort: chooseComfort,
  level: ({ word }: ValueNodes['level']) => ({ value: word }),
  style: ({ word }: ValueNodes['style']) => ({ value: word }),
  'in tune': (amount: NumberNode) => within(amount, IN_TUNE, (range) => t('it goes from {least} to {most} cents', range)),
  landing: (amount: NumberNode) => within(amount, LANDING, inMillimetres),
  spacing: (amount: NumberNode) => within(amount, LANDING, inMillimetres),
};

export function chooseOwn<K extends PlayerKey>(key: K, parts: ValueNode, family: Family): Reading<PlayerValues[K]> {
  return CHOOSE[key](parts as never, family);
}

function inMillimetres(range: Range): string {
  return t('it goes from {least} to {most} mm', range);
}

function chooseComfort(node: ValueNodes['comfort'], family: Family): Reading<Comfort> {
  if ('reaches' in node) {
    const mm = measuredReaches(node.reaches, family);
    return 'value' in mm ? { value: { kind: 'measured', mm: mm.value } } : mm;
  }
  const percent = within(node.percent, COMFORT, (range) => t('it goes from {least} to {most} % of a reach', range));
  return 'value' in percent ? { value: { kind: 'share', share: percent.value / 100 } } : percent;
}

function within(amount: NumberNode, { least, most }: Range, asked: (range: Range) => string): Reading<number> {
  const { value } = amount;
  if (value >= least && value <= most) return { value };
  return fault(amount, asked({ least, most }), [`${Math.min(most, Math.max(least, value))}`]);
}
