/** mm from the nut at which a string of `length` mm and open frequency `openHz` is stopped to sound `hz` (0 is the nut). */
export function stopPlace(length: number, openHz: number, hz: number): number {
  return length * (1 - openHz / hz);
}

/** mm left to sound between a stop `mm` from the nut and the bridge. */
export function soundingLength(length: number, mm: number): number {
  return length - mm;
}

/** mm from the nut of the place `semitones` equal semitones above the open string. */
export function semitonePlace(length: number, semitones: number): number {
  return length * (1 - 2 ** (-semitones / 12));
}

/** Equal semitones above the open string of the place `mm` from the nut: the inverse of `semitonePlace`. */
export function semitonesAt(length: number, mm: number): number {
  return 12 * Math.log2(length / (length - mm));
}

/** Cents by which the pitch rises when the stop moves one mm toward the bridge, `l` mm sounding: 1200 / ln 2 / l. */
export function centsPerMm(l: number): number {
  return 1200 / Math.LN2 / l;
}
