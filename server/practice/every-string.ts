import type { StringNumber } from '../../grammar/tree';
import type { InstrumentString } from '../instrument/instrument';
import { partialPitch } from '../instrument/nodes';
import { later, t } from '../l10n/translate';
import { type Pitch, semitone, step, transposed } from '../music/pitch';
import type { NoteSpec, Pins, Setup } from '../passage/passage';
import { fingeringPosition } from '../scene/position-words';
import { capital, intervalWords, listed } from '../scene/words';
import { isShape, shapeOf } from '../solver/shape';
import type { Fingering } from '../solver/solution';
import type { Way } from '../solver/way';
import { drillBar, played, QUARTER, silence, WHOLE } from './drill';
import type { Exercise, Section } from './exercise';
import type { PracticeKind } from './kind';
import { asShape, waysAlone } from './notes';
import { type Source, solvedEvents } from './source';

/** At most so many shapes of a passage, and notes in each: a bar of quarters. */
const SHAPES = 2;
const NOTES = 4;

export const everyString: PracticeKind = {
  name: 'every-string',
  label: later('Every string'),
  meaning: later('A shape of the hand carried unchanged from string to string'),
  needs: later('a shape with a harmonic that fits on other strings too'),
  exercises: (source) => shapesOf(source).flatMap((shape) => carried(source, shape)),
};

/** Notes one after the other under a hand that stays where it is; each as its ways, double stops with two. */
interface HandShape {
  readonly notes: readonly (readonly Way[])[];
  /** In words. */
  readonly position: string;
}

/** The shapes with most harmonics in them, each with a figure that those before it have not. */
function shapesOf(source: Source): readonly HandShape[] {
  const groups: HandShape[] = [];
  let open: { readonly mm: number; readonly bar: number; readonly notes: Fingering[] } | undefined;
  const close = () => {
    const notes = open?.notes ?? [];
    for (let at = 0; at < notes.length; at += NOTES) {
      const part = harmonicsOnly(notes.slice(at, at + NOTES));
      if (part.length === 0) continue;
      groups.push({
        notes: part.map(({ ways }) => ways),
        position: fingeringPosition(part[0]!, source.solution.passage.setup.instrument),
      });
    }
    open = undefined;
  };
  for (const { event, solved } of solvedEvents(source)) {
    const { mm } = solved.fingering.hand;
    const { bar } = source.solution.passage.events[event]!;
    if (open?.mm !== mm || open.bar !== bar) close();
    open ??= { mm, bar, notes: [] };
    open.notes.push(solved.fingering);
  }
  close();
  const seen = new Set<string>();
  return groups
    .map((shape) => ({ shape, figures: new Set(shape.notes.flatMap(figure)) }))
    .sort((a, b) => b.figures.size - a.figures.size)
    .filter(({ figures }) => {
      const fresh = [...figures].filter((one) => !seen.has(one));
      for (const one of fresh) seen.add(one);
      return fresh.length > 0;
    })
    .map(({ shape }) => shape)
    .slice(0, SHAPES);
}

/** From the first harmonic to the last. */
function harmonicsOnly(notes: readonly Fingering[]): readonly Fingering[] {
  const harmonic = ({ ways }: Fingering) => ways.some(({ partial }) => partial > 1);
  return notes.slice(Math.max(0, notes.findIndex(harmonic)), notes.findLastIndex(harmonic) + 1);
}

/** What the fingers do for the harmonics of an event, whichever strings they are on; none for stopped and open notes. */
function figure(ways: readonly Way[]): readonly string[] {
  if (!ways.some(({ partial }) => partial > 1)) return [];
  return [ways.map(({ kind, stop, touch }) => [kind, stop?.finger, touch?.finger, touch?.k, touch?.n].join()).join('+')];
}

function carried(source: Source, shape: HandShape): readonly Exercise[] {
  const { setup } = source.solution.passage;
  const places = setup.instrument.strings
    .map((_, by) => by)
    .flatMap((by) => [...new Set([-by, by])])
    .flatMap((by) => {
      const moved = shape.notes.map((ways) => movedWays(ways, by, setup));
      return moved.every((ways) => ways !== undefined) ? [{ by, notes: moved }] : [];
    })
    // From the lowest strings to the highest.
    .sort((a, b) => b.by - a.by);
  if (places.length < 2) return [];
  const sections = places.map(({ notes, by }, index): Section => {
    const strings = { strings: stringsOf(notes) };
    const where = by === 0 ? t('On {strings}, as in the passage.', strings) : t('On {strings}.', strings);
    return {
      instructions:
        index === 0
          ? [
              t(
                'One shape of the hand, in {position}, on every string it fits: the fingers keep their distances, only the arm moves. Swing the elbow to bring the hand over the strings; do not reach with the fingers.',
                { position: shape.position },
              ),
              where,
            ]
          : [where],
      bars: [drillBar(...quarters(notes)), drillBar(last(notes))],
    };
  });
  return [{ title: t('Every string: {shape}', { shape: shapeName(shape) }), sections, rests: false }];
}

function quarters(notes: readonly (readonly Way[])[]) {
  const pieces = notes.map((ways) => played(QUARTER, ...ways.map((way) => asShape(way))));
  return [...pieces, ...Array.from({ length: NOTES - notes.length }, () => silence(QUARTER))];
}

/** The last note again, long enough to listen to. */
function last(notes: readonly (readonly Way[])[]) {
  return played(WHOLE, ...(notes.at(-1) ?? []).map((way) => asShape(way)));
}

/** The same fingers `by` strings lower (negative: higher); undefined where there is no such string or the hand can't take it. */
function movedWays(ways: readonly Way[], by: number, setup: Setup): readonly Way[] | undefined {
  const moved = ways.map((way) => movedWay(way, way.string + by, setup));
  const found = moved.filter((way) => way !== undefined);
  return found.length === ways.length && isShape(shapeOf(found, setup)) ? found : undefined;
}

function movedWay(way: Way, to: number, setup: Setup): Way | undefined {
  const { strings } = setup.instrument;
  const [from, string] = [strings[way.string]!, strings[to]];
  if (!string || from === string) return from === string ? way : undefined;
  const pins: Pins = { string: string.number as StringNumber, manner: way.kind };
  const { stop, touch } = way;
  const sounding = (pitch: Pitch, harmonic: NoteSpec['harmonic'], more: Pins) =>
    waysAlone({ asked: { kind: 'sounding', pitch }, harmonic }, { ...pins, ...more }, setup)[0];
  switch (way.kind) {
    case 'open':
      return sounding(string.pitch, 'no', {});
    case 'stopped':
      return stop && sounding(onOther(stop.pitch, from, string), 'no', { finger: stop.finger });
    case 'natural':
      return (
        touch && sounding(partialPitch(string.pitch, touch.n), 'must', { finger: touch.finger, node: { k: touch.k, n: touch.n } })
      );
    case 'artificial': {
      if (!stop || !touch) return undefined;
      const asked = {
        kind: 'artificial',
        stop: onOther(stop.pitch, from, string),
        touch: onOther(touch.pitch, from, string),
      } as const;
      return waysAlone({ asked, harmonic: 'must' }, { ...pins, fingers: { stop: stop.finger, touch: touch.finger } }, setup)[0];
    }
  }
}

/** The note at the same place of another string. */
function onOther(pitch: Pitch, from: InstrumentString, to: InstrumentString): Pitch {
  return transposed(to.pitch, step(pitch) - step(from.pitch), semitone(pitch) - semitone(from.pitch));
}

function stringsOf(notes: readonly (readonly Way[])[]): string {
  const names = new Map(notes.flat().map(({ string, stringName }) => [string, stringName]));
  return listed([...names].sort(([a], [b]) => b - a).map(([, name]) => name));
}

function shapeName({ notes, position }: HandShape): string {
  const harmonics = notes.flat().filter(({ partial }) => partial > 1);
  const kinds = [
    ...new Set(
      harmonics.map(({ kind, interval, touch }) => (kind === 'natural' ? `${touch?.k}/${touch?.n}` : intervalWords(interval))),
    ),
  ];
  return t('{kinds} in {position}', { kinds: capital(listed(kinds)), position });
}
