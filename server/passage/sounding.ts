import { oneOf } from '../../grammar/problems';
import type { TouchInterval } from '../../grammar/tree';
import type { Instrument, StringName } from '../instrument/instrument';
import { ARTIFICIAL_NODES, feelsLike, NODES, type Node, partialPitch, touchInterval } from '../instrument/nodes';
import { type Pitch, pitchName, semitone, step } from '../music/pitch';
import type { Asked } from './passage';

/** One thing that a written form can sound. */
export interface Sounding {
  readonly pitch: Pitch;
  /** The string it sounds on, where the written form leaves that open. */
  readonly string?: StringName;
  /** The node touched; absent where the form does not say how the note is made. */
  readonly node?: Node;
  readonly interval?: TouchInterval;
}

/**
 * What a written form sounds, likeliest first: one pitch for a sounding or an artificial form, and for
 * a lone diamond one for every string and node (partials 2 to 8) that the diamond can mean. Empty
 * where it is no harmonic at all.
 */
export function sounding(asked: Asked, instrument: Instrument): readonly Sounding[] {
  if (asked.kind === 'sounding') return [{ pitch: asked.pitch }];
  if (asked.kind === 'artificial') {
    const interval = touchInterval(asked.stop, asked.touch);
    if (!interval) return [];
    const node = ARTIFICIAL_NODES[interval];
    return [{ pitch: partialPitch(asked.stop, node.n), node, interval }];
  }
  return diamond(asked.touch, instrument).filter(
    ({ pitch }) => asked.sounding === undefined || semitone(pitch) === semitone(asked.sounding),
  );
}

/** Lower partials first: they speak more easily, and a printed diamond means them unless it says otherwise. */
function diamond(touch: Pitch, instrument: Instrument): readonly Sounding[] {
  const found = instrument.strings.flatMap((string) => {
    const above = semitone(touch) - semitone(string.pitch);
    return NODES.filter(({ k, n }) => feelsLike(k, n).semitones === above).map((node) => ({
      pitch: partialPitch(string.pitch, node.n),
      string: string.name,
      node,
    }));
  });
  return found.sort((a, b) => a.node.n - b.node.n || step(a.pitch) - step(b.pitch));
}

/** `E7`, `D6 or A6`, `D6, A6 or C7`: the distinct pitches of a list of soundings, in its order. */
export function soundingNames(soundings: readonly Sounding[]): string {
  return oneOf([...new Set(soundings.map(({ pitch }) => pitchName(pitch)))]) || 'nothing';
}
