import type { Finger, Manner, TouchInterval } from '../../grammar/tree';
import type { StringName } from '../instrument/instrument';
import type { Pitch } from '../music/pitch';

/** How one note is played: everything the printed page needs to say, and the physics behind it. */
export interface Way {
  /** Index into `Instrument.strings`, 0 for I. */
  readonly string: number;
  readonly stringName: StringName;
  readonly kind: Manner;
  /** 1 for stopped and open notes. */
  readonly partial: number;
  /** The interval between the two fingers of an artificial harmonic. */
  readonly interval?: TouchInterval;
  /** The finger that presses the string down. */
  readonly stop?: FingerPlace;
  /** The finger that only touches it, and the point of division of the sounding string from its nut end. */
  readonly touch?: FingerPlace & { readonly k: number; readonly n: number };
  readonly sounding: Pitch;
  /** Hz, the string's stiffness included. */
  readonly hz: number;
  /** Cents off equal temperament at the file's A4: the one figure that is shown of a pitch. */
  readonly cents: number;
  /** Cents by which the string's stiffness sharpens the partial. A natural harmonic has them, an artificial one is stopped that much lower. */
  readonly stiffness: number;
  /** Sounding length, mm: nut or stopping finger to bridge. */
  readonly length: number;
  /** How far the finger may miss, mm either side: a stopping finger until it is out of tune, a touching finger until the harmonic fails. Absent for open strings. */
  readonly tolerance?: number;
}

export interface FingerPlace {
  /** The pitch that a stopped note at this place is written as. */
  readonly pitch: Pitch;
  readonly finger: Finger;
  /** From the nut. */
  readonly mm: number;
}
