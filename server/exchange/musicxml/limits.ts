/** What a score file may ask of the machine that reads it. All are assumptions, far above any real part or score. */
export const LIMITS = {
  /** Bytes of a file as chosen, packed or not. */
  fileBytes: 32 * 2 ** 20,
  /** Bytes of one unpacked entry of an .mxl file. */
  unpackedBytes: 32 * 2 ** 20,
  /** Entries of an .mxl file; a score with its pictures has some dozen. */
  entries: 1000,
  /** Characters of one tag with its attributes; the longest that MusicXML has use for stay below a thousand. */
  tag: 20_000,
  /** Elements of a score; a full orchestral movement has a few hundred thousand. */
  elements: 1_000_000,
  /** Elements inside one another; MusicXML itself stays below 12. */
  depth: 48,
} as const;
