/**
 * What the command prints with `--format json`, and the library returns: one object. Absent members are left out. Its schema is
 * `client/schemas/report.schema.json`.
 */
export interface Report {
  readonly passages: readonly PassageReport[];
  readonly diagnostics: readonly Diagnostic[];
}

export interface PassageReport {
  /** Absent for standard input. */
  readonly file?: string;
  readonly title: string;
  readonly tempo?: TempoReport;
  /** Nats: habits, effort and the risk of missing. The events' terms add up to it. */
  readonly cost: number;
  /** Chance that every note speaks in tune, 0 to 1. */
  readonly clean: number;
  /** The fastest tempo at which every 48 notes keep the chance asked for. */
  readonly ceiling?: CeilingReport;
  readonly events: readonly EventReport[];
  /** Index of the event with the largest share of the cost. */
  readonly hardest?: number;
  /** The best fingerings of the whole passage, cheapest first, the chosen one among them; only with `--best`. */
  readonly best?: readonly RankedReport[];
}

export interface RankedReport {
  readonly cost: number;
  /** For every event, its notes. */
  readonly events: readonly (readonly NoteReport[])[];
}

/** What ends the fastest tempo; `none` where a metronome ends first. */
export interface CeilingReport extends TempoReport {
  readonly limit: 'left hand' | 'response' | 'finger and bow' | 'none';
}

export interface TempoReport {
  readonly beat: string;
  readonly bpm: number;
}

export interface EventReport {
  readonly bar: number;
  readonly beat: string;
  readonly duration: string;
  /** Counted from 1, as are columns. */
  readonly line: number;
  readonly column: number;
  /** Empty where the event can't be played; a diagnostic at its place says why. */
  readonly notes: readonly NoteReport[];
  readonly position?: number;
  /** The position in words, `upper 3rd position`; absent where no finger is down. */
  readonly hand?: string;
  /** Why it is played so, in a player's words: `keeps 3rd position`. */
  readonly why?: string;
  /** Of a chord of three or four notes: how the bow breaks it. */
  readonly breaking?: BreakingReport;
  readonly terms?: Readonly<Record<string, number>>;
  readonly alternatives?: readonly AlternativeReport[];
}

export interface BreakingReport {
  /** So many of its lowest notes, then the others; or all at once. */
  readonly strokes: '1+2' | '2+1' | '2+2' | 'together';
  /** The hand can't hold all of it: the upper notes are fingered while the bow goes over to them. */
  readonly inHalves?: true;
  /** The text asks for it. */
  readonly asked?: true;
}

export interface NoteReport {
  readonly sounding: string;
  readonly hz: number;
  /** Against equal temperament at the file's A4. */
  readonly cents: number;
  readonly string: string;
  readonly kind: 'open' | 'stopped' | 'natural' | 'artificial';
  readonly partial: number;
  readonly interval?: string;
  readonly stop?: FingerReport;
  readonly touch?: FingerReport & { readonly fraction: string };
  readonly toleranceMm?: number;
  /** Chance that it speaks in tune, 0 to 1; absent in alternatives. */
  readonly speaks?: number;
}

export interface FingerReport {
  readonly pitch: string;
  readonly finger: string;
  /** From the nut. */
  readonly mm: number;
}

export interface AlternativeReport {
  /** What choosing it costs the whole passage beyond the best, nats. */
  readonly extraCost: number;
  readonly notes: readonly NoteReport[];
}

export interface Diagnostic extends Place {
  readonly file?: string;
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly message: string;
  /** Places in the same file that have to do with it. */
  readonly related?: readonly (Place & { readonly message: string })[];
  /** Titles of the fixes an editor offers. */
  readonly fixes: readonly string[];
}

/** Counted from 1, columns in UTF-16 code units, the end exclusive: as terminals, SARIF and editors' status bars count. */
export interface Place {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** What a program may ask of `check`, besides what the text says. */
export interface CheckOptions {
  /** For a text that names none, as its `instrument` line would: `violin 3/4`, `viola`, `cello`. */
  readonly instrument?: string;
  /** Instead of the text's: `small`, `medium`, `large`, or measured reaches in millimetres, `1-2 48, 1-4 98`. */
  readonly hand?: string;
  /** Instead of every tempo of the text: `1/4 = 96`. */
  readonly tempo?: string;
  /** Levels by the code of a check: `{ 'lone-third': 'off' }`. */
  readonly rules?: Readonly<Record<string, 'error' | 'warning' | 'information' | 'hint' | 'off'>>;
}

/** What a program may ask of `solve`. */
export interface SolveOptions extends CheckOptions {
  /** Chance of a clean run that `ceiling` keeps, above 0 and below 1; 0.8 where nothing is said. */
  readonly chance?: number;
  /** So many of the best fingerings of each passage, 1 to 100. */
  readonly best?: number;
}
