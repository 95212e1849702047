/** Letters in the order in which a signature raises them, and the other way round lowers them. */
export const SHARPENED = ['F', 'C', 'G', 'D', 'A', 'E', 'B'] as const;

/** The keys that there are signatures for, by mode, from seven flats to seven sharps. */
export const KEY_NAMES: Readonly<Record<'major' | 'minor', readonly string[]>> = {
  major: ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'],
  minor: ['Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#', 'G#', 'D#', 'A#'],
};
