import { CONSTANTS } from './constants';
import type { Instrument, InstrumentString } from './instrument';
import { centsPerMm } from './places';

/** Why a stopping finger must sit nearer the nut than a finger touching at the same place, in mm. */
export interface FingerOffset {
  /** Half the finger: a stop ends the string at the finger's bridge-side edge, a touch works from its middle. */
  readonly edge: number;
  /** Pressing the string down stretches it and sharpens it; going this much nearer the nut takes it back. */
  readonly stretch: number;
  /** Both together: how far a finger goes toward the nut from a harmonic to the stopped note, and toward the bridge the other way. */
  readonly total: number;
}

/** Height of the strings above the fingerboard `mm` from the nut, mm: straight from nut to the board's end. */
export function stringHeight(instrument: Instrument, mm: number): number {
  const { nut, end } = instrument.height;
  return nut + ((end - nut) * mm) / instrument.fingerboard;
}

/**
 * Cents by which pressing the string down to the board `mm` from the nut sharpens it:
 * 865.6 (EA/T) (dL/L), dL = (h^2/2) (1/a + 1/b), for a height h and a, b to nut and bridge. EA is taken from the
 * bending modulus (an assumption: windings bend but carry little of the pull).
 */
export function stretchCents(instrument: Instrument, string: InstrumentString, mm: number): number {
  const toBridge = instrument.length - mm;
  if (mm <= 0 || toBridge <= 0) return 0;
  const longer = (stringHeight(instrument, mm) ** 2 / 2) * (1 / mm + 1 / toBridge);
  return (600 / Math.LN2) * (string.axialStiffness / string.tension) * (longer / instrument.length);
}

/** Two places on a string no further apart than this, mm, are one spot to a player: about half a fingertip. Assumption. */
export const ONE_SPOT = 4;

/** How far the middle of a finger goes toward the nut, mm, from touching a string at one place to stopping it at another. */
export function touchToStop(instrument: Instrument, string: InstrumentString, touched: number, stopped: number): number {
  return touched - stopped + fingerOffset(instrument, string, stopped).total;
}

/** The offset between touching and stopping at one place, `mm` from the nut. */
export function fingerOffset(
  instrument: Instrument,
  string: InstrumentString,
  mm: number,
  width: number = CONSTANTS.fingerWidth.value,
): FingerOffset {
  const edge = width / 2;
  const stretch = stretchCents(instrument, string, mm) / centsPerMm(instrument.length - mm);
  return { edge, stretch, total: edge + stretch };
}
