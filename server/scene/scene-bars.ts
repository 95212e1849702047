import { type Pitch, pitchName } from '../music/pitch';
import { alike } from '../passage/alike';
import type { Bar, Passage, PassageEvent } from '../passage/passage';
import type { SceneBar } from '../protocol/scene';
import { barPieces } from './bar-pieces';
import { barMoved } from './change';
import type { KeptEvents } from './kept-events';

/** The bars of an earlier version, as they were and as they were shown, and which of its events are kept. */
export interface ShownBars {
  readonly passage: Passage;
  readonly shown: readonly SceneBar[];
  readonly kept: KeptEvents;
}

/** The bars of a passage, with those of an earlier version that hold the same. */
export function sceneBars(passage: Passage, earlier?: ShownBars): readonly SceneBar[] {
  return passage.bars.map((bar, index) => (earlier && keptBar(passage, bar, index, earlier)) ?? sceneBar(passage, bar));
}

function keptBar(now: Passage, bar: Bar, index: number, { passage: old, shown, kept }: ShownBars): SceneBar | undefined {
  const front = bar.endEvent <= kept.head;
  if (!front && bar.firstEvent < now.events.length - kept.tail) return undefined;
  const at = front ? index : index + old.bars.length - now.bars.length;
  const twin = old.bars[at];
  if (!twin || twin.firstEvent !== kept.twin(bar.firstEvent)) return undefined;
  const events = bar.firstEvent - twin.firstEvent;
  const same =
    bar.endEvent === twin.endEvent + events &&
    bar.length.equals(twin.length) &&
    bar.close === twin.close &&
    bar.open === twin.open &&
    bar.meter?.count === twin.meter?.count &&
    bar.meter?.unit === twin.meter?.unit &&
    bar.clef === twin.clef &&
    alike([bar.key, bar.ending, bar.jumps, bar.rests], [twin.key, twin.ending, twin.jumps, twin.rests]) &&
    bar.together === twin.together &&
    bar.endsHairpin === twin.endsHairpin &&
    (bar.number === 0) === (twin.number === 0) &&
    sameBeat(now.events[bar.firstEvent], old.events[twin.firstEvent]);
  return same ? barMoved(shown[at]!, events, bar.number - twin.number) : undefined;
}

function sameBeat(a: PassageEvent | undefined, b: PassageEvent | undefined): boolean {
  return a?.beat.n === b?.beat.n && a?.beat.d === b?.beat.d;
}

function sceneBar(passage: Passage, bar: Bar): SceneBar {
  return {
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
    ...(bar.together !== undefined && { together: bar.together }),
    ...(bar.endsHairpin && { endsHairpin: bar.endsHairpin }),
    pieces: barPieces(passage, bar).map(({ duration, event, rest }) => ({
      length: duration.toFraction(),
      ...(event !== undefined && { event }),
      ...(rest?.marks && { marks: rest.marks.map(({ word }) => ({ word })) }),
      ...(rest?.directions && { directions: rest.directions }),
      ...(rest?.says && { says: rest.says }),
    })),
  };
}

/** `F#`: a pitch's name without its octave. */
export function tonicName(tonic: Pick<Pitch, 'letter' | 'alter'>): string {
  return pitchName({ ...tonic, octave: 4 }).slice(0, -1);
}
