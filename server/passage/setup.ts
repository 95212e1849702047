import type { Hand } from '../hand/hand';
import { measuredHand, namedHand } from '../hand/hands';
import { buildInstrument } from '../instrument/build';
import type { Family } from '../instrument/instrument';
import { InternTable } from './intern';
import type { HarmonicsMode } from './music-values';
import type { Setup, Tempo } from './passage';
import type { HandChoice } from './player-values';
import type { SettingValues } from './values';

/** What comes from outside of the file: from the command line, the editor's settings, or a player's file. All but `defaults` holds against the file. */
export interface Overrides {
  readonly hand?: HandChoice | { readonly kind: 'own'; readonly hand: Hand };
  /** Instead of every tempo of the file, later changes included. */
  readonly tempo?: Tempo;
  readonly harmonics?: HarmonicsMode;
  /** What holds where the file itself says nothing. */
  readonly defaults?: Values;
}

/** The settings in force at a place; absent ones have their default. */
export type Values = Readonly<Partial<SettingValues>>;

const setups = new InternTable<Setup>();

/** The setup of these settings: equal settings get the same object as long as any passage holds it. */
export function setupOf(values: Values, overrides: Overrides): Setup {
  const { family, size } = values.instrument ?? { family: 'violin' as const };
  const hand = overrides.hand ?? values.hand ?? { kind: 'named', name: 'medium' };
  const spec = { family, ...(size && { size }), tuning: values.tuning ?? 'fifths', a4: values.pitch ?? 440 };
  const temperament = values.temperament ?? { kind: 'equal' };
  return setups.intern(JSON.stringify([spec, temperament, hand]), (key) => ({
    key,
    instrument: buildInstrument(spec),
    hand: handOf(hand, family),
    temperament,
    a4: spec.a4,
  }));
}

function handOf(choice: NonNullable<Overrides['hand']>, family: Family): Hand {
  if (choice.kind === 'own') return choice.hand;
  return choice.kind === 'named' ? namedHand(choice.name, family) : measuredHand(choice.most, family);
}
