import { later, t } from '../l10n/translate';
import { mmWords, often } from '../scene/words';
import { stepAt } from '../solver/read';
import type { SolvedEvent } from '../solver/solution';
import { TERMS } from '../solver/terms';
import { adviceOn, leadingTerms } from './advice';
import { between, cutOut } from './excerpt';
import type { Exercise, Piece, Section } from './exercise';
import { tempoText } from './exercise-text';
import type { PracticeKind } from './kind';
import { type Source, type SourceBar, solvedEvents } from './source';
import { atTempo, safeTimes, scaled } from './tempo';
import { barAndBeat, mannersName, pitchesName } from './wording';

/** At most so many spots of a passage, and notes before each; more is no longer the spot but the piece. */
const SPOTS = 3;
const LEAD_IN = 3;
/** Where that falls inside a beat, the lead-in begins on the beat, if it is near. */
const LONGEST_LEAD_IN = 6;
/** A note is hard when its cost is at least this many nats, and so many times the passage's mean. Assumptions. */
const LEAST = 0.05;
const OVER_MEAN = 1.25;
/** The tempo to stop and think in, as a share of the written one. */
const SLOW = 0.5;

/** The term without what it is made of. */
const DOUBTFUL = later('a harmonic that a rule would warn about');

export const hardSpots: PracticeKind = {
  name: 'hard-spots',
  label: later('Hard spots'),
  meaning: later('The hardest notes cut out with a lead-in: stopped before, then slowly, then in tempo'),
  needs: later('a note that is clearly harder than the others'),
  exercises: (source) => spotsOf(source).flatMap((event, index) => spot(source, event, index + 1)),
};

/** The hardest events, hardest first, each with its own surroundings; where a recording was heard, those that failed in it. */
function spotsOf(source: Source): readonly number[] {
  const { solution, failed } = source;
  if (failed) return failed.filter((event, at) => solution.events[event] && apart(event, failed.slice(0, at))).slice(0, SPOTS);
  const found: number[] = [];
  const events = solvedEvents(source);
  const least = Math.max(LEAST, (OVER_MEAN * solution.cost) / Math.max(1, events.length));
  const seen = new Set<string>();
  const ranked = [...events].sort((a, b) => b.solved.cost - a.solved.cost || a.event - b.event);
  for (const { event, solved } of ranked) {
    const alike = `${from(solution.events[event - 1])} > ${from(solved)}`;
    if (solved.cost < least || found.length === SPOTS) break;
    if (!apart(event, found) || seen.has(alike)) continue;
    seen.add(alike);
    found.push(event);
  }
  return found;
}

/** True where an exercise on one of the others would not have this spot in it. */
function apart(event: number, others: readonly number[]): boolean {
  return others.every((other) => event < other - LEAD_IN || event > other + 1);
}

function from(solved: SolvedEvent | undefined): string {
  return solved ? mannersName(solved.fingering.ways) + pitchesName(solved.fingering.ways) : '';
}

function spot(source: Source, event: number, number: number): readonly Exercise[] {
  const { solution } = source;
  const solved = solution.events[event]!;
  const { ways } = solved.fingering;
  const first = leadIn(source, event);
  const bars = cutOut(between(source, first, event + 1));
  const title = t('Hard spot {number}: {pitches} in {place}', {
    number,
    pitches: pitchesName(ways),
    place: barAndBeat(source, event),
  });
  const slow: Section = {
    instructions: [t('The same without the stop, still slowly: prepare while the note before is sounding.')],
    bars: atTempo(bars, SLOW),
    repeated: true,
  };
  const safe = safeTimes(source, bars) ?? SLOW;
  const written = bars[0]!.tempo;
  const goal =
    safe < 1
      ? t('Now at {tempo}, as fast as is safe today; {written} is written. Three times in a row without a miss, then go on.', {
          tempo: tempoText(scaled(written, safe)),
          written: tempoText(written),
        })
      : t('Now in tempo, {written}: three times in a row without a miss, then go on.', { written: tempoText(written) });
  const fast: Section = { instructions: [goal], bars: atTempo(bars, safe) };
  return [{ title, sections: [stopped(source, event, bars), slow, fast], rests: false }];
}

/** The notes before a spot, back to the last silence. */
function leadIn({ solution }: Source, event: number): number {
  let first = event;
  for (let before = event - 1; before >= event - LONGEST_LEAD_IN && before >= 0; before--) {
    // Far enough back, and on a beat.
    if (first <= event - LEAD_IN && solution.passage.events[first]!.beat.d === 1n) break;
    if (!solution.events[before] || solution.passage.events[before]!.spec.notes.length === 0) break;
    if (solution.passage.events[before]!.spec.rest > 0 && before < event - 1) break;
    first = before;
  }
  return first;
}

/** Up to the spot, then silence in which the fingers are set, then the spot. */
function stopped(source: Source, event: number, bars: readonly SourceBar[]): Section {
  const { solution } = source;
  const solved = solution.events[event]!;
  const { tempo } = bars[0]!;
  const pieces = bars.flatMap((bar) => bar.pieces);
  const at = pieces.findIndex((piece) => piece.event === event);
  const before = pieces.slice(0, at).filter(({ notes }) => notes.length);
  const plain = ({ stroke: _, slide: __, ...piece }: Piece): Piece => ({
    ...piece,
    notes: piece.notes.map((note) => ({ ...note, tied: false, held: false })),
  });
  const spotPiece = plain(pieces[at]!);
  const long = spotPiece.duration.lt(tempo.beat) ? { ...spotPiece, duration: tempo.beat } : spotPiece;
  return {
    instructions: [why(source, event, solved), howTo(source, solved, before.length > 0)],
    bars: [{ tempo: scaled(tempo, SLOW), pieces: [...before.map(plain), { duration: tempo.beat, notes: [] }, long] }],
    repeated: true,
  };
}

function why({ solution }: Source, event: number, solved: SolvedEvent): string {
  const { ways } = solved.fingering;
  const share = solution.cost > 0 ? solved.cost / solution.cost : 0;
  const holes = {
    pitches: pitchesName(ways),
    manners: mannersName(ways),
    share: Math.round(share * 100),
    chance: often(solved.chance),
  };
  const sentences = [
    ways.length > 1
      ? t('{pitches} ({manners}) carry {share} % of the effort and risk of this passage, and come out clean {chance}.', holes)
      : t('{pitches} ({manners}) carries {share} % of the effort and risk of this passage, and comes out clean {chance}.', holes),
  ];
  const step = stepAt(solution, event);
  if (step && step.distance > 0) sentences.push(t('The hand comes from {distance} away.', { distance: mmWords(step.distance) }));
  const reasons = leadingTerms(solved, solution.passage.setup).map((name) => t(name === 'doubtful' ? DOUBTFUL : TERMS[name]));
  if (reasons.length) sentences.push(t('What makes it hard: {reasons}.', { reasons: reasons.join('; ') }));
  return sentences.join(' ');
}

function howTo({ solution }: Source, solved: SolvedEvent, led: boolean): string {
  const [main] = leadingTerms(solved, solution.passage.setup);
  const stop = led
    ? t('Stop at the rest and set the fingers in silence; then bow.')
    : t('Set the fingers in the rest; then bow.');
  const harmonic = solved.fingering.ways.some(({ partial }) => partial > 1);
  return main === undefined ? stop : `${stop} ${adviceOn(main, harmonic)}`;
}
