import { scaleSemitone } from '../hand/frame';
import { t } from '../l10n/translate';
import { pitchName, semitone, step } from '../music/pitch';
import { tremoloStrokes } from '../music/tremolo';
import { BY_TURNS, TRILLS } from '../passage/ornament';
import type { Asked, EventSpec, Mark, PassageEvent, Setup } from '../passage/passage';
import type {
  Scene,
  SceneAlternative,
  SceneAsked,
  SceneBreaking,
  SceneEvent,
  SceneMark,
  SceneNote,
  ScenePassage,
} from '../protocol/scene';
import { outOfTheOrdinary } from '../solver/habits';
import { semitonesAbove } from '../solver/ornament';
import type { Alternative, Fingering, Solution, SolvedEvent, Unplayable } from '../solver/solution';
import { TERMS } from '../solver/terms';
import type { FingerPlace, Way } from '../solver/way';
import { accountOf } from './account';
import { eventMoved } from './change';
import { keptEvents } from './kept-events';
import { positionWords } from './position-words';
import { runWords } from './run-words';
import { sceneBars, tonicName } from './scene-bars';
import { sceneBoard } from './scene-board';
import { unplayableWords } from './unplayable-words';
import { mannerLabel, PAIN } from './words';

const known = new WeakMap<Solution, ScenePassage>();

/**
 * Plain data for every view of a document: fingerboard, staff, sound, text. Pure; a solution it has seen before gives the same
 * object, and an earlier one at the same place whatever of it is still so.
 */
export function buildScene(
  uri: string,
  version: number,
  solutions: readonly Solution[],
  earlier: readonly Solution[] = [],
): Scene {
  const passages = solutions.map((solution, index) => {
    const old = earlier[index];
    const before = old && known.get(old);
    const passage = known.get(solution) ?? scenePassage(solution, old && before && { solution: old, passage: before });
    known.set(solution, passage);
    return passage;
  });
  return { uri, version, passages };
}

/** Another way to play an event, as the views show it; `index` as the solver counts them. */
export function sceneAlternative({ fingering, extraCost }: Alternative, index: number, spec: EventSpec): SceneAlternative {
  const shown = fingeringOf(fingering, spec);
  return { index, label: shown.notes.map(mannerLabel).join(' + '), extraCost, ...shown };
}

export function scenePassage(solution: Solution, earlier?: Shown): ScenePassage {
  const { passage } = solution;
  const onsets = onsetsOf(passage.events);
  const caution = cautionFor(solution);
  const kept = earlier && keptEvents(earlier.solution, solution);
  const unplayables = new Map(solution.unplayables.map((each) => [each.event, each]));
  return {
    title: passage.title,
    ...(passage.key && { key: { tonic: tonicName(passage.key.tonic), mode: passage.key.mode } }),
    board: sceneBoard(passage.setup.instrument),
    events: passage.events.map((event, index) => {
      const onset = onsets[index] as number;
      const twin = kept?.twin(index);
      const shown = twin === undefined ? undefined : earlier?.passage.events[twin];
      if (!shown) return sceneEvent(solution, event, index, onset, unplayables.get(index));
      const { bar, beat, source } = event;
      const told = beat === earlier?.solution.passage.events[twin!]?.beat ? shown.beat : beat.toFraction(true);
      return eventMoved(shown, { index, line: source.line, bar, beat: told, onset });
    }),
    bars: sceneBars(passage, kept && earlier && { passage: earlier.solution.passage, shown: earlier.passage.bars, kept }),
    instructions: passage.instructions,
    hand: passage.setup.player ? `${passage.setup.player.name}’s` : passage.setup.hand.name,
    clean: solution.clean,
    run: runWords(solution),
    cost: solution.cost,
    hardest: solution.hardest,
    ...(caution !== undefined && { caution }),
  };
}

/** A solution and what was shown of it. */
export interface Shown {
  readonly solution: Solution;
  readonly passage: ScenePassage;
}

function onsetsOf(events: readonly PassageEvent[]): readonly number[] {
  let at = 0;
  return events.map(({ spec }) => {
    const onset = at;
    at += spec.seconds + spec.rest;
    return onset;
  });
}

function sceneEvent(
  solution: Solution,
  event: PassageEvent,
  index: number,
  onset: number,
  unplayable: Unplayable | undefined,
): SceneEvent {
  const { spec, source } = event;
  const answer = solution.events[index];
  const chosen = answer && fingeringOf(answer.fingering, spec);
  const position = positionWords(solution, index);
  const breaking = answer && breakingIn(answer.fingering, spec);
  const facts = {
    index,
    range: {
      start: { line: source.line, character: source.span.start },
      end: { line: source.line, character: source.span.end },
    },
    bar: event.bar,
    beat: event.beat.toFraction(true),
    duration: event.duration.toFraction(),
    onset,
    seconds: spec.seconds,
    silence: spec.rest,
    tempo: {
      beat: event.tempo.beat.toFraction(),
      bpm: event.tempo.bpm,
      ...(event.tempo.assumed && { assumed: event.tempo.assumed }),
    },
    dynamic: spec.dynamic,
    ...(spec.notes.some(({ pins }) => pins.finger !== undefined || pins.fingers) && { fingered: true as const }),
    ...(event.says && { says: event.says }),
    slurred: spec.slurred,
    slide: spec.slide,
    ...(spec.alternates && { alternates: spec.alternates }),
    ...neighboursOf(event, solution, index),
    ...(spec.plucked && { plucked: spec.plucked }),
    ...(event.bow && { bow: event.bow }),
    ...(event.marks && { marks: event.marks.map((mark) => sceneMark(mark, event, solution.passage.events[index - 1])) }),
    ...(event.directions && { directions: event.directions }),
    ...(event.grace && { grace: event.grace.toFraction() }),
    notes: chosen?.notes ?? [],
    written: spec.notes.map(({ asked, harmonic }) => writtenAs(asked, harmonic === 'must')).join('+') || 'rest',
    asked: spec.notes.map(({ asked, harmonic }) => sceneAsked(asked, harmonic === 'must')),
    ...(unplayable && { problem: unplayableWords(unplayable) }),
    ...(position && { position: position.words }),
    ...(position?.extends && { extends: String(position.extends) }),
    ...(chosen && { handMm: chosen.handMm }),
    barred: chosen?.barred ?? false,
    ...(breaking && { breaking }),
    ...(answer && { chance: answer.chance }),
    terms: answer ? termsOf(answer, solution.passage.setup) : [],
  };
  return { ...facts, account: accountOf(facts) };
}

export function breakingIn({ breaking, inHalves }: Fingering, { notes }: EventSpec): SceneBreaking | undefined {
  if (!breaking) return undefined;
  const asked = notes.some(({ pins }) => pins.breaking);
  return { strokes: breaking, ...(inHalves && { inHalves }), ...(asked && { asked: true as const }) };
}

const ORNAMENTS = [...TRILLS.keys(), 'mordent', 'inverted-mordent', 'turn', 'inverted-turn'];

/** The notes of the key about a single note that an ornament stands over, or as its accidental says. */
function neighboursOf({ marks, spec }: PassageEvent, { work }: Solution, index: number): Pick<SceneEvent, 'neighbours'> {
  const [asked, ...more] = spec.notes.map((note) => note.asked);
  if (asked?.kind !== 'sounding' || more.length > 0 || !marks?.some(({ word }) => ORNAMENTS.includes(word))) return {};
  const { fifths } = work.lattice.columns[index]!.states.around;
  const below = semitone(asked.pitch) - scaleSemitone(step(asked.pitch) - 1, fifths);
  return { neighbours: { above: semitonesAbove(asked.pitch, fifths, spec.upper), below: near(below) } };
}

/** A neighbour is a half or a whole step away, whatever accidental the note itself has. */
function near(semitones: number): number {
  return Math.min(2, Math.max(1, semitones));
}

function sceneMark(mark: Mark, { duration }: PassageEvent, before: PassageEvent | undefined): SceneMark {
  const { word, value } = mark;
  return {
    word,
    ...(value && { strokes: tremoloStrokes(word === BY_TURNS ? duration.mul(2) : duration, value) }),
    ...(word === 'phrase' && !before?.marks?.includes(mark) && { opens: true }),
  };
}

function fingeringOf(fingering: Fingering, spec: EventSpec): Omit<SceneAlternative, 'index' | 'label' | 'extraCost'> {
  return {
    notes: fingering.ways.map((way, note) =>
      sceneNote(
        way,
        spec.held.some(([, here]) => here === note),
      ),
    ),
    handMm: fingering.hand.mm,
    barred: fingering.barred,
  };
}

export function sceneNote(way: Way, held: boolean): SceneNote {
  return {
    string: way.stringName,
    stringIndex: way.string,
    kind: way.kind,
    partial: way.partial,
    sounding: pitchName(way.sounding),
    hz: way.hz,
    cents: way.cents,
    ...(way.interval && { interval: way.interval }),
    ...(way.stop && { stop: sceneFinger(way.stop) }),
    ...(way.touch && { touch: { ...sceneFinger(way.touch), fraction: `${way.touch.k}/${way.touch.n}` } }),
    length: way.length,
    ...(way.tolerance !== undefined && { tolerance: way.tolerance }),
    held,
  };
}

/** How a note is played, in one short line: see `mannerLabel`. */
export function wayLabel(way: Way): string {
  return mannerLabel(sceneNote(way, false));
}

function sceneFinger({ pitch, finger, mm }: FingerPlace): { pitch: string; finger: string; mm: number } {
  return { pitch: pitchName(pitch), finger: String(finger), mm };
}

function sceneAsked(asked: Asked, harmonic: boolean): SceneAsked {
  switch (asked.kind) {
    case 'sounding':
      return { kind: 'sounding', pitch: pitchName(asked.pitch), harmonic };
    case 'artificial':
      return { kind: 'artificial', stop: pitchName(asked.stop), touch: pitchName(asked.touch) };
    case 'diamond':
      return { kind: 'diamond', touch: pitchName(asked.touch) };
  }
}

function writtenAs(asked: Asked, harmonic: boolean): string {
  if (asked.kind === 'artificial') return `${pitchName(asked.stop)}<>${pitchName(asked.touch)}`;
  if (asked.kind === 'diamond') return `<>${pitchName(asked.touch)}`;
  return `${pitchName(asked.pitch)}${harmonic ? 'o' : ''}`;
}

function termsOf(answer: SolvedEvent, setup: Setup): SceneEvent['terms'] {
  return outOfTheOrdinary(answer.terms, setup).map(([name, nats]) => ({ name, meaning: t(TERMS[name]), nats }));
}

/** The usual caution, only where the hand opens past comfortable. */
function cautionFor({ events }: Solution): string | undefined {
  return events.some((answer) => answer?.terms.stretch)
    ? t('Some shapes open the hand beyond what is comfortable. Warm up, and rest often. {pain}', { pain: t(PAIN) })
    : undefined;
}
