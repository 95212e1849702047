/** The settings under `passagework` that the server reads, as declared in package.json. */
export interface Settings {
  /** Instrument for files that name none, as the `instrument` line writes it; empty for a full-size violin. */
  readonly instrument: string;
  /** Hand for files that name none: `small`, `medium`, `large`, or measured reaches as the `hand` line writes them. */
  readonly hand: string;
  /** Chance, 0 to 1, that a whole passage comes out clean; the fastest safe tempo goes by it. */
  readonly safeChance: number;
  /** Level by rule code; a rule that is not named keeps its own. */
  readonly rules: Readonly<Record<string, 'error' | 'warning' | 'information' | 'hint' | 'off'>>;
  /** The chosen fingering after notes: none, where the hand does something new, or after every note. */
  readonly fingeringHints: 'off' | 'changes' | 'all';
  /** Chance, fastest safe tempo and hardest spot above every passage. */
  readonly passageLens: boolean;
  /** Points out stopped notes that could be checked against a natural harmonic. */
  readonly referenceNotes: boolean;
  /** Fingerprints of the findings that the project's baseline records of the file: known, and not shown. */
  readonly known: readonly string[];
}

/** What an editor adds to the settings of a file that a project holds for. Paths have `/` between their parts. */
export interface ProjectSettings {
  /** Text of the project file. */
  readonly project: string;
  /** The file as it is named from the project file's folder. */
  readonly path: string;
  /** Text of the project's baseline, where it has one that is there. */
  readonly baseline?: string;
  /** The file as it is named from the baseline's folder. */
  readonly recordedAs?: string;
}

/** The file in which a collection keeps its own rules: it holds for its folder and all below. */
export const PROJECT_FILE = 'passagework.json';
