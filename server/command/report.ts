import type { Place } from './place';

/** What the command prints with `--format json`: one object, documented in DEVELOPERS.md. Absent members are left out. */
export interface Report {
  readonly passages: readonly PassageReport[];
  readonly diagnostics: readonly Diagnostic[];
}

export interface PassageReport {
  /** Absent for standard input. */
  readonly file?: string;
  readonly title: string;
  readonly tempo?: TempoReport;
  /** Nats: minus the log of `clean`, plus effort. The events' terms add up to it. */
  readonly cost: number;
  /** Chance that every note speaks in tune, 0 to 1. */
  readonly clean: number;
  /** The fastest tempo at which the chance stays above the one asked for. */
  readonly ceiling?: TempoReport;
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
  readonly terms?: Readonly<Record<string, number>>;
  readonly alternatives?: readonly AlternativeReport[];
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
  /** Titles of the cures an editor offers. */
  readonly fixes: readonly string[];
}
