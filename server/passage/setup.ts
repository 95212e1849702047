import { type HandChoice, handOf, usualHand } from '../hand/hands';
import { ownHand } from '../hand/own-hand';
import { buildInstrument, namedSize } from '../instrument/build';
import type { InstrumentChoice } from '../instrument/choice';
import type { Family } from '../instrument/instrument';
import { InternTable } from '../music/intern';
import type { Tempo } from '../music/meter';
import type { PlayerChoice, PlayerLookup } from '../player/player-choice';
import type { Setup } from './passage';
import type { HarmonicsMode, SettingValues } from './values';

/**
 * What comes from outside of the file: from the command line, the editor's settings, or a player's file. All but `defaults` and
 * `players` holds against the file.
 */
export interface Overrides {
  readonly hand?: HandChoice;
  /** Plays instead of whom the file names, with the own hand, and with the own instrument where the file is for one of its kind. */
  readonly player?: PlayerChoice;
  /** Where the player files that the file names come from; without it there are none. */
  readonly players?: PlayerLookup;
  /** Instead of every tempo of the file, later changes included. */
  readonly tempo?: Tempo;
  readonly harmonics?: HarmonicsMode;
  /** What holds where the file itself says nothing. */
  readonly defaults?: Values;
}

/** The settings in force at a place; absent ones have their default. */
export type Values = Readonly<Partial<SettingValues>>;

const setups = new InternTable<Setup>();

/** The setup of what a file's settings say: equal settings get the same object as long as any passage holds it. */
export function setupOf(written: Values, overrides: Overrides): Setup {
  const values = inForce(written, overrides);
  const player = playerOf(written, overrides);
  const { family, size } = values.instrument ?? VIOLIN;
  const hand = overrides.hand ?? values.hand ?? usualHand(family, namedSize(family, size));
  const spec = { family, ...(size && { size }), tuning: values.tuning ?? 'fifths', a4: values.pitch ?? 440 };
  const temperament = values.temperament ?? { kind: 'equal' };
  return setups.intern(JSON.stringify([spec, temperament, hand, values.level, values.style, player, values.player]), (key) => {
    const instrument = buildInstrument(spec);
    const usual = handOf(hand, family, values.level);
    return {
      key,
      instrument,
      hand: player ? ownHand(usual, known(player, family), instrument.length) : usual,
      ...(values.style && { style: values.style }),
      temperament,
      a4: spec.a4,
      ...(player && { player: { name: player.name, ...(values.player && { file: values.player }) } }),
    };
  });
}

/** The settings that hold: what is written over what the player's file says, that over the defaults. */
export function inForce(written: Values, overrides: Overrides): Values {
  const { instrument, hand, level, style } = playerOf(written, overrides) ?? {};
  const own = { ...(instrument && { instrument }), ...(hand && { hand }), ...(level && { level }), ...(style && { style }) };
  const values: Values = { ...overrides.defaults, ...own, ...written };
  if (!overrides.player) return values;
  // Who is asked for from outside plays on the instrument at hand, but a violinist's passage stays one for violin.
  const same = instrument && (written.instrument ?? instrument).family === instrument.family;
  return { ...values, ...(hand && { hand }), ...(level && { level }), ...(style && { style }), ...(same && { instrument }) };
}

/** The instrument that values are read for. */
export function familyOf(written: Values, overrides: Overrides): Family {
  return (inForce(written, overrides).instrument ?? VIOLIN).family;
}

const VIOLIN: InstrumentChoice = { family: 'violin' };

function playerOf({ player }: Values, overrides: Overrides): PlayerChoice | undefined {
  if (overrides.player || player === undefined) return overrides.player;
  const answer = overrides.players?.(player);
  return answer && 'choice' in answer ? answer.choice : undefined;
}

/** Attempts tell of the instrument that they were made on, and of no other kind. */
function known(player: PlayerChoice, family: Family): PlayerChoice {
  const { experience, ...others } = player;
  return experience && (player.instrument ?? VIOLIN).family === family ? player : others;
}
