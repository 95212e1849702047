import { feelsLike, NODES, partialSemitones, touchInterval } from '../../instrument/nodes';
import { type Pitch, semitone } from '../../music/pitch';
import { OVERTONES, SHAPES, soundingOf } from './shapes';
import type { WrittenNote } from './written-note';

/** A diamond and the stopped note below it; a lone diamond has none. */
export interface Pair {
  readonly touch: WrittenNote;
  readonly base: WrittenNote | undefined;
}

/**
 * The stopped note of every diamond, of all ways to share them out the best: on the same string, an
 * interval that makes a harmonic, called a base by the score, and printed next to each other.
 */
export function paired(touches: readonly WrittenNote[], bases: Set<WrittenNote>, notes: readonly WrittenNote[]): readonly Pair[] {
  const candidates = [...bases];
  const best = bestPairs(touches.slice(0, MOST_PAIRED), candidates, notes);
  for (const { base } of best.pairs) if (base) bases.delete(base);
  return [...best.pairs, ...touches.slice(MOST_PAIRED).map((touch) => ({ touch, base: undefined }))];
}

/** A hand stops two harmonics at once at most; further diamonds of a chord are read as lone ones. */
const MOST_PAIRED = 2;

function bestPairs(
  touches: readonly WrittenNote[],
  bases: readonly WrittenNote[],
  notes: readonly WrittenNote[],
): { readonly pairs: readonly Pair[]; readonly fit: number } {
  const [touch, ...others] = touches;
  if (!touch) return { pairs: [], fit: 0 };
  let best = { pairs: [] as readonly Pair[], fit: Number.NEGATIVE_INFINITY };
  for (const base of [...bases, undefined]) {
    const fit = base ? fitOf(base, touch, notes) : 0;
    if (fit === undefined) continue;
    const rest = bestPairs(
      others,
      bases.filter((b) => b !== base),
      notes,
    );
    if (fit + rest.fit > best.fit) best = { pairs: [{ touch, base }, ...rest.pairs], fit: fit + rest.fit };
  }
  return best;
}

/** How well a stopped note goes with a diamond; undefined where it can't be its own. */
function fitOf(base: WrittenNote, touch: WrittenNote, notes: readonly WrittenNote[]): number | undefined {
  const makes = touchInterval(base.pitch, touch.pitch) !== undefined;
  const named = base.harmonic?.names === 'base';
  if (semitone(base.pitch) >= semitone(touch.pitch)) return undefined;
  if (!named && (base.harmonic?.kind === 'natural' || base.harmonic?.names === 'sound' || touch.harmonic?.kind === 'natural'))
    return undefined;
  if (!named && base.harmonic && base.harmonic.kind !== 'artificial') return undefined;
  if (!makes && !named && touch.harmonic?.kind !== 'artificial') return undefined;
  const sameString = base.string !== undefined && touch.string !== undefined ? (base.string === touch.string ? 8 : -8) : 0;
  const adjacent = notes.indexOf(touch) - notes.indexOf(base) === 1 ? 1 : 0;
  return 1 + sameString + (makes ? 4 : 0) + (named ? 2 : 0) + adjacent;
}

/** The sounding pitch printed beside a harmonic: one that it can sound, else one in brackets. Any other circle is a note of its own. */
export function takeSound(
  sounds: Set<WrittenNote>,
  { base, touch }: { base?: WrittenNote | undefined; touch?: WrittenNote },
): WrittenNote | undefined {
  const fits = (s: WrittenNote) => {
    if (base && touch) return semitone(s.pitch) === soundingOf(base.pitch, touch.pitch);
    if (base) return SHAPES.some((shape) => shape.sounds === semitone(s.pitch) - semitone(base.pitch));
    return (
      touch !== undefined &&
      OVERTONES.has(semitone(s.pitch) - semitone(touch.pitch)) &&
      (s.string ?? touch.string) === touch.string
    );
  };
  const all = [...sounds];
  const found = all.find((s) => s.aside && fits(s)) ?? all.find(fits) ?? all.find((s) => s.aside);
  if (found) sounds.delete(found);
  return found;
}

/**
 * A plain head on the very pitch that a printed harmonic sounds, which some editions put above it without a bracket or mark
 * (common practice, no source). A lone diamond must be a node of an open string that sounds it.
 */
export function takePlainSound(
  heads: Set<WrittenNote>,
  { base, touch }: { readonly base?: WrittenNote | undefined; readonly touch: WrittenNote },
  openStrings: readonly Pitch[],
): WrittenNote | undefined {
  const sounds = base
    ? [soundingOf(base.pitch, touch.pitch)]
    : openStrings.flatMap((string) => {
        const up = semitone(touch.pitch) - semitone(string);
        return NODES.filter(({ k, n }) => feelsLike(k, n).semitones === up).map(
          ({ n }) => semitone(string) + partialSemitones(n),
        );
      });
  const found = [...heads].find(
    (h) => h.harmonic?.names === undefined && sounds.includes(semitone(h.pitch)) && (h.string ?? touch.string) === touch.string,
  );
  if (found) heads.delete(found);
  return found;
}
