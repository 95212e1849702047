import type { Tree } from '../../grammar/tree';
import { durationText } from '../music/duration';
import type { Tempo } from '../music/meter';
import { pitchName } from '../music/pitch';
import type { Problem } from '../rules/rule';
import { positionWords } from '../scene/position-words';
import { reasonFor } from '../scene/reason';
import { breakingIn } from '../scene/scene';
import { alternatives } from '../solver/alternatives';
import { kBest, type Ranked } from '../solver/best';
import { ceiling } from '../solver/ceiling';
import type { Solution, SolvedEvent } from '../solver/solution';
import type { FingerPlace, Way } from '../solver/way';
import type { Lined } from '../workspace/baseline';
import type { Snapshot } from '../workspace/snapshot';
import { placeOf } from './place';
import type {
  AlternativeReport,
  Diagnostic,
  EventReport,
  FingerReport,
  NoteReport,
  PassageReport,
  RankedReport,
  Report,
  TempoReport,
} from './report';

/** At most this many alternatives for each event, cheapest first: more would drown the ones worth trying. */
const MOST_ALTERNATIVES = 8;

/** What a report is made for. */
export interface Wanted {
  /** Chance of a clean run that `ceiling` keeps to. */
  readonly chance: number;
  /** Absent for standard input. */
  readonly file?: string | undefined;
  /** So many of the best fingerings of each passage. */
  readonly best?: number | undefined;
  /** False where nobody will see what else could be played: it costs a second pass over the whole passage. */
  readonly alternatives?: boolean | undefined;
}

/** The whole report on one file. */
export function reportOf(snapshot: Snapshot, wanted: Wanted): Report {
  const { passages, diagnostics } = streamedReport([snapshot], () => wanted);
  return {
    passages: Array.from(passages, (passage) => ({ ...passage, events: [...passage.events] })),
    diagnostics: [...diagnostics],
  };
}

/** A report on several files whose events are made one by one as they are asked for, once: a long passage's would not fit into memory. */
export function streamedReport(snapshots: readonly Snapshot[], wanted: (file: number) => Wanted): StreamedReport {
  return { passages: passages(), diagnostics: diagnostics() };

  function* passages() {
    for (const [file, { tree, solutions }] of snapshots.entries()) {
      for (const solution of solutions) yield passageReport(tree, solution, wanted(file));
    }
  }

  function* diagnostics() {
    for (const [file, { tree, problems }] of snapshots.entries()) {
      for (const problem of problems) yield diagnosticOf(tree, problem, wanted(file).file);
    }
  }
}

export interface StreamedReport {
  readonly passages: Iterable<StreamedPassage>;
  readonly diagnostics: Iterable<Diagnostic>;
}

export type StreamedPassage = Omit<PassageReport, 'events'> & { readonly events: Iterable<EventReport> };

export function diagnosticOf(tree: Lined, problem: Problem, file?: string): Diagnostic {
  return {
    ...(file !== undefined && { file }),
    code: problem.code,
    severity: problem.severity,
    message: problem.message,
    ...placeOf(tree, problem.span),
    ...(problem.related && { related: problem.related.map(({ span, message }) => ({ ...placeOf(tree, span), message })) }),
    fixes: problem.fixes.map((fix) => fix.title),
  };
}

function passageReport(tree: Tree, solution: Solution, wanted: Wanted): StreamedPassage {
  const { chance, file, best } = wanted;
  const { passage } = solution;
  const tempo = passage.events[0]?.tempo;
  const fastest = tempo && ceiling(solution, chance);
  return {
    ...(file !== undefined && { file }),
    title: passage.title,
    ...(tempo && { tempo: tempoReport(tempo) }),
    cost: solution.cost,
    clean: solution.clean,
    ...(fastest && { ceiling: { ...tempoReport(fastest), limit: fastest.limit } }),
    events: eventReports(tree, solution, wanted),
    ...(solution.hardest >= 0 && { hardest: solution.hardest }),
    ...(best !== undefined && { best: kBest(solution, best).map(rankedReport) }),
  };
}

function rankedReport({ cost, events }: Ranked): RankedReport {
  return {
    cost,
    events: events.map((event) => (event ? notesReport(event) : [])),
  };
}

function* eventReports(tree: Tree, solution: Solution, wanted: Wanted): Generator<EventReport> {
  for (let index = 0; index < solution.passage.events.length; index++) yield eventReport(tree, solution, index, wanted);
}

function eventReport(tree: Tree, solution: Solution, index: number, { alternatives = true }: Wanted): EventReport {
  const event = solution.passage.events[index]!;
  const solved = solution.events[index];
  const lineStart = tree.lines[event.source.line]?.start ?? 0;
  const { line, column } = placeOf(tree, { start: lineStart + event.source.span.start, end: lineStart + event.source.span.end });
  const place = { bar: event.bar, beat: event.beat.toFraction(), duration: durationText(event.duration), line, column };
  if (!solved) return { ...place, notes: [] };
  const hand = positionWords(solution, index)?.words;
  const why = reasonFor(solution, index);
  const breaking = breakingIn(solved.fingering, event.spec);
  return {
    ...place,
    notes: notesReport(solved),
    position: solved.fingering.hand.position,
    ...(hand && { hand }),
    ...(why && { why }),
    ...(breaking && { breaking }),
    terms: { ...solved.terms } as Record<string, number>,
    ...(alternatives && { alternatives: alternativeReports(solution, index) }),
  };
}

function alternativeReports(solution: Solution, index: number): AlternativeReport[] {
  return alternatives(solution, index, Number.POSITIVE_INFINITY, MOST_ALTERNATIVES).map(({ fingering, extraCost }) => ({
    extraCost,
    notes: fingering.ways.map((way) => noteReport(way)),
  }));
}

const playedReports = new WeakMap<SolvedEvent, readonly NoteReport[]>();

/** The notes of an event as fingered; the best fingerings of a passage have most of their events in common. */
function notesReport(event: SolvedEvent): readonly NoteReport[] {
  let report = playedReports.get(event);
  if (!report) {
    report = event.fingering.ways.map((way, note) => noteReport(way, event.speaks[note]));
    playedReports.set(event, report);
  }
  return report;
}

const wayReports = new WeakMap<Way, NoteReport>();

/** A way is played by many events, and stands among the alternatives of more. */
function noteReport(way: Way, speaks?: number): NoteReport {
  let report = wayReports.get(way);
  if (!report) {
    report = wayReport(way);
    wayReports.set(way, report);
  }
  return speaks === undefined ? report : { ...report, speaks: rounded(speaks, 4) };
}

function wayReport(way: Way): NoteReport {
  return {
    sounding: pitchName(way.sounding),
    hz: rounded(way.hz, 2),
    cents: rounded(way.cents, 2),
    string: way.stringName,
    kind: way.kind,
    partial: way.partial,
    ...(way.interval && { interval: way.interval }),
    ...(way.stop && { stop: fingerReport(way.stop) }),
    ...(way.touch && { touch: { ...fingerReport(way.touch), fraction: `${way.touch.k}/${way.touch.n}` } }),
    ...(way.tolerance !== undefined && { toleranceMm: rounded(way.tolerance, 1) }),
  };
}

function fingerReport(place: FingerPlace): FingerReport {
  return { pitch: pitchName(place.pitch), finger: String(place.finger), mm: rounded(place.mm, 1) };
}

export function tempoReport(tempo: Tempo): TempoReport {
  return { beat: durationText(tempo.beat), bpm: rounded(tempo.bpm, 1) };
}

function rounded(value: number, places: number): number {
  return Number(value.toFixed(places));
}
