export type PaperName = 'A4' | 'Letter';

export interface Paper {
  readonly name: PaperName;
  /** Points, 1/72 inch. */
  readonly width: number;
  readonly height: number;
}

/** ISO 216 and ANSI/ASME Y14.1, in points. */
export const PAPERS: Readonly<Record<PaperName, Paper>> = {
  A4: { name: 'A4', width: 595.28, height: 841.89 },
  Letter: { name: 'Letter', width: 612, height: 792 },
};

/** Margin on all sides, points: enough for a punched sheet. */
export const MARGIN = 45;

/** Points to a pixel of the drawings: a staff space of 10 px is then 1.75 mm, the size of most printed studies. */
export const SCALE = 0.496;
