import { t } from '../l10n/translate';
import { semitone } from '../music/pitch';
import type { EventSpec } from '../passage/passage';
import { ornamentOf } from '../solver/ornament';
import { fingeredAs, firstHeard } from '../solver/repeats';
import type { Fingering, Solution, SolvedEvent } from '../solver/solution';
import type { Way } from '../solver/way';
import { shortBreaking } from './breaking-words';
import { positionWords } from './position-words';
import { fingerWords } from './words';

/** Open notes shorter than this, in seconds, are told as short ones. Assumption. */
const SHORT = 0.4;

/**
 * Why an event is played as it is, in a player's words: `keeps 3rd position`, `shifts to 3rd position on the half step`, `as in
 * bar 2`, `fourth finger avoids two crossings`. It tells what the chosen path does there, which costs less than all others
 * together; no single word is why. Undefined where nothing is played.
 */
export function reasonFor(solution: Solution, event: number): string | undefined {
  const reason = settledBy(solution, event);
  const extra = reason && [ornamentWords(solution, event), brokenWords(solution, event)].filter(Boolean).join(', ');
  return extra ? t('{reason}, {extra}', { reason, extra }) : reason;
}

/** `trilled with the second finger`; undefined where nothing asks for a second finger, or none is free. */
function ornamentWords(solution: Solution, event: number): string | undefined {
  const { spec } = solution.passage.events[event]!;
  const way = solution.events[event]?.fingering.ways[0];
  if (spec.alternates && spec.notes.length === 1) return byTurnsWith(solution.events[event - 1]?.fingering);
  if (!spec.ornament || !way) return undefined;
  const finger = ornamentOf(
    way,
    spec,
    solution.passage.setup,
    solution.work.lattice.columns[event]!.states.around.fifths,
  )?.finger;
  const hand = Number(finger) in FINGERS ? fingerWords(String(finger)) : undefined;
  if (spec.ornament === 'trill')
    return hand ? t('trilled with the {finger}', { finger: hand }) : t('with no finger free to trill');
  return hand ? t('plucked with the {finger}', { finger: hand }) : t('with no finger free to pluck');
}

/** `by turns with the first finger`, for a single note. */
function byTurnsWith(before: Fingering | undefined): string | undefined {
  const [way, ...more] = before?.ways ?? [];
  if (!way || more.length > 0) return undefined;
  const finger = fingerOf(way);
  return finger === undefined
    ? t('by turns with the open string')
    : t('by turns with the {finger}', { finger: fingerWords(String(finger)) });
}

function brokenWords({ events }: Solution, event: number): string | undefined {
  const { breaking, inHalves } = events[event]?.fingering ?? {};
  return breaking && shortBreaking({ strokes: breaking, ...(inHalves && { inHalves }) });
}

function settledBy(solution: Solution, event: number): string | undefined {
  const solved = solution.events[event];
  const { spec } = solution.passage.events[event] ?? {};
  if (!solved || !spec || solved.fingering.ways.length === 0) return undefined;
  const { fingering } = solved;
  if (spec.held.length === spec.notes.length) return t('held over');
  if (spec.notes.every(({ pins }) => isPinned(pins))) return t('as its hints ask');
  const before = solution.events[event - 1]?.fingering;
  if (before && fingeredAs(before) === fingeredAs(fingering))
    return isFingered(fingering) ? t('keeps its finger') : t('open string again');
  const bar = heardIn(solution, event);
  if (bar !== undefined) return t('as in bar {bar}', { bar });
  if (!isFingered(fingering)) return openReason(solution, event, spec);
  const from = lastFingered(solution, event);
  const position = positionWords(solution, event)?.words ?? '';
  if (spec.slide) return t('slides up to {position}', { position });
  if (!from) return fourthFinger(solution, event) ?? t('begins in {position}', { position });
  if (from.solved.fingering.hand.mm !== fingering.hand.mm && from.position !== position)
    return shiftWords(solution, from, event, position);
  if (fingering.barred) return t('one finger lies over both strings in {position}', { position });
  return fourthFinger(solution, event) ?? t('keeps {position}', { position });
}

function isPinned({ string, finger, fingers, manner, node }: EventSpec['notes'][number]['pins']): boolean {
  return (string !== undefined && (finger !== undefined || manner === 'open')) || finger !== undefined || !!fingers || !!node;
}

function isFingered({ ways }: Fingering): boolean {
  return ways.some(({ kind }) => kind !== 'open');
}

/** The earlier bar that has the same notes in the same way, with the event before and the one after. */
function heardIn(solution: Solution, event: number): number | undefined {
  const { events } = solution.passage;
  const here = events[event]!.bar;
  for (const [place, start] of firstHeard(solution, event).entries()) {
    const bar = start === undefined ? here : events[start + place]!.bar;
    if (bar !== here) return bar;
  }
  return undefined;
}

function openReason(solution: Solution, event: number, spec: EventSpec): string {
  const from = lastFingered(solution, event);
  const after = positionWords(solution, event + 1)?.words;
  if (from && after && from.position !== after) return t('the open string covers the shift to {after}', { after });
  return spec.seconds < SHORT ? t('open string on a short note') : t('open string');
}

interface Fingered {
  readonly solved: SolvedEvent;
  readonly at: number;
  readonly position: string;
}

/** The last event before this one that had a finger down. */
function lastFingered(solution: Solution, event: number): Fingered | undefined {
  for (let at = event - 1; at >= 0; at--) {
    const solved = solution.events[at];
    if (!solved) return undefined;
    if (isFingered(solved.fingering)) return { solved, at, position: positionWords(solution, at)?.words ?? '' };
  }
  return undefined;
}

/** A shift, with what makes its place a good one: `shifts to 3rd position on the half step`. */
function shiftWords({ passage, events }: Solution, { solved, at }: Fingered, event: number, position: string): string {
  const { spec, beat } = passage.events[event]!;
  const before = passage.events[event - 1]!.spec;
  if (before.rest > 0) return t('shifts to {position} in the rest', { position });
  if (at < event - 1) return t('shifts to {position} during the open string', { position });
  const [one, two] = [solved.fingering.ways, events[event]!.fingering.ways];
  if (one.length === 1 && two.length === 1 && one[0]!.string === two[0]!.string) {
    const apart = Math.abs(semitone(one[0]!.sounding) - semitone(two[0]!.sounding));
    const [finger, other] = [fingerOf(one[0]!), fingerOf(two[0]!)];
    if (apart === 1 && one[0]!.kind === two[0]!.kind) return t('shifts to {position} on the half step', { position });
    if (finger === other)
      return Number(finger) in FINGERS
        ? t('shifts to {position}, the {finger} leading', { position, finger: fingerWords(String(finger)) })
        : t('shifts to {position}, the same finger leading', { position });
    if (other === 1) return t('shifts to {position} to a fresh first finger', { position });
  }
  return (!before.slurred || spec.slurred) && beat.mod(1).equals(0)
    ? t('shifts to {position} on the beat', { position })
    : t('shifts to {position}', { position });
}

/** Those that have a number. */
const FINGERS = { 1: true, 2: true, 3: true, 4: true };

function fingerOf({ stop, touch }: Way): unknown {
  return (stop ?? touch)?.finger;
}

/** Told of a fourth finger where the next string could be played open: what it saves the bow. */
function fourthFinger(solution: Solution, event: number): string | undefined {
  const { ways } = solution.events[event]!.fingering;
  const [way] = ways;
  if (ways.length !== 1 || way!.kind !== 'stopped' || way!.stop?.finger !== 4) return undefined;
  const open = solution.passage.setup.instrument.strings[way!.string - 1];
  if (!open || semitone(open.pitch) !== semitone(way!.sounding)) return undefined;
  const along = [-1, 1].filter((step) => {
    const beside = solution.events[event + step]?.fingering.ways;
    return beside?.length === 1 && beside[0]!.string === way!.string;
  });
  if (along.length === 2) return t('fourth finger avoids two crossings');
  if (along.length === 1) return t('fourth finger avoids a crossing');
  return t('fourth finger instead of the open string');
}
