import type { Instrument } from '../instrument/instrument';
import { type Pitch, pitchName } from '../music/pitch';
import { tremoloStrokes } from '../music/tremolo';
import { barPieces } from '../passage/bar-pieces';
import type { Asked, EventSpec, Mark, PassageEvent } from '../passage/passage';
import type { Scene, SceneAlternative, SceneAsked, SceneEvent, SceneMark, SceneNote, ScenePassage } from '../protocol/scene';
import { outOfTheOrdinary } from '../solver/habits';
import type { Alternative, Fingering, Solution, SolvedEvent } from '../solver/solution';
import { TERMS } from '../solver/terms';
import type { FingerPlace, Way } from '../solver/way';
import { accountOf } from './account';
import { positionWords } from './position-words';
import { sceneBoard } from './scene-board';
import { unplayableWords } from './unplayable-words';
import { mannerLabel, PAIN } from './words';

const known = new WeakMap<Solution, ScenePassage>();

/** Plain data for every view of a document: fingerboard, staff, sound, text. Pure; a solution it has seen before gives the same object. */
export function buildScene(uri: string, version: number, solutions: readonly Solution[]): Scene {
  const passages = solutions.map((solution) => {
    const passage = known.get(solution) ?? scenePassage(solution);
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

export function scenePassage(solution: Solution): ScenePassage {
  const { passage } = solution;
  const onsets = onsetsOf(passage.events);
  const caution = cautionFor(solution);
  return {
    title: passage.title,
    ...(passage.key && { key: { tonic: tonicName(passage.key.tonic), mode: passage.key.mode } }),
    board: sceneBoard(passage.setup.instrument),
    events: passage.events.map((event, index) => sceneEvent(solution, event, index, onsets[index] as number)),
    bars: passage.bars.map((bar) => ({
      number: bar.number,
      firstEvent: bar.firstEvent,
      endEvent: bar.endEvent,
      length: bar.length.toFraction(),
      ...(bar.open && { open: bar.open }),
      close: bar.close,
      ...(bar.meter && { meter: `${bar.meter.count}/${bar.meter.unit}` }),
      ...(bar.key && { key: { tonic: tonicName(bar.key.tonic), mode: bar.key.mode } }),
      ...(bar.clef && { clef: bar.clef }),
      ...(bar.ending && { ending: bar.ending }),
      ...(bar.jumps && { jumps: bar.jumps }),
      pieces: barPieces(passage, bar).map(({ duration, event }) => ({
        length: duration.toFraction(),
        ...(event !== undefined && { event }),
      })),
    })),
    instructions: passage.instructions,
    hand: passage.setup.player ? `${passage.setup.player.name}’s` : passage.setup.hand.name,
    clean: solution.clean,
    cost: solution.cost,
    hardest: solution.hardest,
    ...(caution !== undefined && { caution }),
  };
}

/** `F#`: a pitch's name without its octave. */
function tonicName(tonic: Pick<Pitch, 'letter' | 'alter'>): string {
  return pitchName({ ...tonic, octave: 4 }).slice(0, -1);
}

function onsetsOf(events: readonly PassageEvent[]): readonly number[] {
  let at = 0;
  return events.map(({ spec }) => {
    const onset = at;
    at += spec.seconds + spec.rest;
    return onset;
  });
}

function sceneEvent(solution: Solution, event: PassageEvent, index: number, onset: number): SceneEvent {
  const { spec, source } = event;
  const answer = solution.events[index];
  const unplayable = solution.unplayables.find((each) => each.event === index);
  const chosen = answer && fingeringOf(answer.fingering, spec);
  const position = positionWords(solution, index);
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
    tempo: { beat: event.tempo.beat.toFraction(), bpm: event.tempo.bpm },
    dynamic: spec.dynamic,
    slurred: spec.slurred,
    slide: spec.slide,
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
    ...(answer && { chance: answer.chance }),
    terms: answer ? termsOf(answer, solution.passage.setup.instrument) : [],
  };
  return { ...facts, account: accountOf(facts) };
}

function sceneMark(mark: Mark, { duration }: PassageEvent, before: PassageEvent | undefined): SceneMark {
  const { word, value } = mark;
  return {
    word,
    ...(value && { strokes: tremoloStrokes(duration, value) }),
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

function termsOf(answer: SolvedEvent, { family }: Instrument): SceneEvent['terms'] {
  return outOfTheOrdinary(answer.terms, family).map(([name, nats]) => ({ name, meaning: TERMS[name], nats }));
}

/** The usual caution, only where the hand opens past comfortable. */
function cautionFor({ events }: Solution): string | undefined {
  return events.some((answer) => answer?.terms.stretch)
    ? `Some shapes open the hand past comfortable. Warm up, and rest often. ${PAIN}`
    : undefined;
}
