import type { Finger, StringNumber } from '../../../grammar/tree';
import { ARTIFICIAL_NODES, feelsLike, partialSemitones } from '../../instrument/nodes';
import { type Pitch, pitchName, semitone, transposed } from '../../music/pitch';
import { touchInterval } from '../../passage/sounding';
import type { Losses } from './losses';
import type { WrittenNote } from './written-note';

/** One note as a passage writes it. */
export interface Form {
  /** `F#5`, `D6o`, `E5<>A5`, `<>A4`. */
  readonly text: string;
  /** `E7`: what the score says that it sounds. */
  readonly expected?: string;
  readonly hints: readonly string[];
  readonly tied: boolean;
  /** What the hand's frame hangs on: the pitch as heard, stopped or touched. */
  readonly pitch: Pitch;
}

const STRINGS: Readonly<Record<StringNumber, string>> = { 1: 'I', 2: 'II', 3: 'III', 4: 'IV' };

/**
 * Which note heads of a chord make one note together: a stopped note with its diamond, and either
 * with the sounding pitch printed beside it in brackets. The names that MusicXML gives the heads
 * decide; where there are none, the shapes and the intervals do.
 */
export function formsOf(
  notes: readonly WrittenNote[],
  openStrings: readonly Pitch[],
  measure: string,
  losses: Losses,
): readonly Form[] {
  const touches = notes.filter((n) => n.harmonic?.names === 'touch' || (n.diamond && n.harmonic?.names === undefined));
  const harmonic = touches.length > 0 || notes.some((n) => n.harmonic?.names === 'base');
  const sounds = new Set(
    notes.filter(
      (n) => n.harmonic?.names === 'sound' || (harmonic && n.aside && !touches.includes(n) && n.harmonic?.names !== 'base'),
    ),
  );
  const bases = new Set(notes.filter((n) => !touches.includes(n) && !sounds.has(n)));
  const forms: Form[] = [];
  for (const { touch, base } of paired(touches, bases, notes)) {
    const sound = takeSound(sounds, { base, touch });
    forms.push(withTouch(touch, base, sound, measure, losses));
  }
  for (const base of bases) {
    if (base.harmonic?.names === 'base') forms.push(baseAlone(base, takeSound(sounds, { base }), measure, losses));
    else forms.push(plain(base, openStrings, measure, losses));
  }
  for (const sound of sounds) {
    if (sound.harmonic) forms.push(circled(sound, measure, losses));
    else forms.push(plain(sound, openStrings, measure, losses));
  }
  const order = new Map(notes.map((n, i) => [n.pitch, i]));
  return forms.sort((a, b) => (order.get(a.pitch) ?? 0) - (order.get(b.pitch) ?? 0));
}

interface Pair {
  readonly touch: WrittenNote;
  readonly base: WrittenNote | undefined;
}

/**
 * The stopped note of every diamond, of all ways to share them out the best: on the same string, an
 * interval that makes a harmonic, called a base by the score, and printed next to each other.
 */
function paired(touches: readonly WrittenNote[], bases: Set<WrittenNote>, notes: readonly WrittenNote[]): readonly Pair[] {
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
function takeSound(
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

function withTouch(
  touch: WrittenNote,
  base: WrittenNote | undefined,
  sound: WrittenNote | undefined,
  measure: string,
  losses: Losses,
): Form {
  const expected = sound && pitchName(sound.pitch);
  const all = [base, touch, sound].filter((n): n is WrittenNote => n !== undefined);
  const tied = all.some((n) => n.tied);
  const natural = touch.harmonic?.kind === 'natural' || base?.harmonic?.kind === 'natural';
  if (natural || (!base && touch.harmonic?.kind !== 'artificial')) {
    // A base of a natural harmonic is its open string, which the diamond alone already says.
    const own = base ? all.filter((n) => n !== base) : all;
    const hints = hintsOf({ ...merged(all), fingers: own.flatMap((n) => n.fingers) }, false, measure, losses);
    return { text: `<>${pitchName(touch.pitch)}`, hints, tied, pitch: (base ?? touch).pitch, ...(expected && { expected }) };
  }
  const stop = base?.pitch ?? stopOf(touch.pitch, sound?.pitch);
  if (!base && !sound) {
    losses.changed(
      measure,
      `an artificial harmonic that shows only the touched ${pitchName(touch.pitch)}, taken as a fourth on ${pitchName(stop)}`,
    );
  }
  const pairs = base ? fingersOf(base, touch, measure, losses) : touch.fingers;
  const hints = hintsOf({ ...merged(all), fingers: pairs }, true, measure, losses);
  return {
    text: `${pitchName(stop)}<>${pitchName(touch.pitch)}`,
    hints,
    tied,
    pitch: (base ?? touch).pitch,
    ...(expected && { expected }),
  };
}

function baseAlone(base: WrittenNote, sound: WrittenNote | undefined, measure: string, losses: Losses): Form {
  if (base.harmonic?.kind === 'natural') {
    if (sound) {
      const string = sound.string ?? base.string;
      return circled({ ...sound, hints: merged([base, sound]).hints, ...(string && { string }) }, measure, losses, base.pitch);
    }
    losses.changed(
      measure,
      `a natural harmonic that shows only its open string ${pitchName(base.pitch)}, written as that open string`,
    );
    return { text: pitchName(base.pitch), hints: [], tied: base.tied, pitch: base.pitch };
  }
  const touch = touchOf(base.pitch, sound?.pitch);
  if (!sound) {
    losses.changed(
      measure,
      `an artificial harmonic that shows only the stopped ${pitchName(base.pitch)}, taken as a fourth, touched at ${pitchName(touch)}`,
    );
  } else if (!touchInterval(base.pitch, touch)) {
    losses.changed(
      measure,
      `an artificial harmonic on ${pitchName(base.pitch)} that can't sound ${pitchName(sound.pitch)}, taken as a fourth`,
    );
  }
  const all = sound ? [base, sound] : [base];
  return {
    text: `${pitchName(base.pitch)}<>${pitchName(touch)}`,
    hints: hintsOf({ ...merged(all), fingers: base.fingers }, true, measure, losses),
    tied: all.some((n) => n.tied),
    pitch: base.pitch,
    ...(sound && { expected: pitchName(sound.pitch) }),
  };
}

/** The trade's circle over a sounding pitch. A score's word for how it is made is a hint only where it also says which pitch it means. */
function circled(note: WrittenNote, measure: string, losses: Losses, key = note.pitch): Form {
  const said = note.harmonic;
  const manner = said?.kind && (said.names === 'sound' || said.kind === 'artificial') ? [said.kind] : [];
  if (note.fingers.includes(0)) losses.changed(measure, 'a 0 over a harmonic, read as the harmonic mark');
  const fingers = note.fingers.filter((f) => f !== 0);
  const hints = hintsOf(
    { ...note, fingers, hints: [...new Set([...manner, ...note.hints])] },
    said?.kind !== 'natural',
    measure,
    losses,
  );
  return { text: `${pitchName(note.pitch)}o`, hints, tied: note.tied, pitch: key };
}

function plain(note: WrittenNote, openStrings: readonly Pitch[], measure: string, losses: Losses): Form {
  if (note.harmonic) return circled(note, measure, losses);
  const marked = note.openMark || note.fingers[0] === 0;
  const open = openStrings.some((string) => semitone(string) === semitone(note.pitch));
  if (marked && !open && openStrings.length > 0) {
    // Older editions put the open string's 0 over natural harmonics too (common practice, no source).
    losses.changed(measure, `an open-string sign over ${pitchName(note.pitch)}, which no open string sounds: read as a harmonic`);
    return circled({ ...note, openMark: false, fingers: note.fingers.filter((f) => f !== 0) }, measure, losses);
  }
  const hints = note.openMark ? ['open', ...note.hints] : note.hints;
  return {
    text: pitchName(note.pitch),
    hints: hintsOf({ ...note, hints }, false, measure, losses),
    tied: note.tied,
    pitch: note.pitch,
  };
}

type Hinted = Pick<WrittenNote, 'fingers' | 'hints'> & { readonly string?: StringNumber | undefined };

function merged(notes: readonly WrittenNote[]): Hinted {
  const string = notes.find((n) => n.string)?.string;
  return { string, fingers: notes.flatMap((n) => n.fingers), hints: [...new Set(notes.flatMap((n) => n.hints))] };
}

/** Stopping and touching finger; both may stand at the stopped note. */
function fingersOf(base: WrittenNote, touch: WrittenNote, measure: string, losses: Losses): readonly Finger[] {
  if (base.fingers.length > 0 || touch.fingers.length !== 1) return [...base.fingers, ...touch.fingers];
  losses.leftOut(measure, `the touching finger ${touch.fingers[0]} of an artificial harmonic whose stopping finger is not named`);
  return [];
}

function hintsOf(note: Hinted, artificial: boolean, measure: string, losses: Losses): readonly string[] {
  const most = artificial ? 2 : 1;
  if (note.fingers.length > most)
    losses.leftOut(measure, `fingering ${note.fingers.slice(most).join(' ')}, more fingers than the note has`);
  return [
    ...(note.string ? [STRINGS[note.string]] : []),
    ...(note.fingers.length > 0 ? [note.fingers.slice(0, most).join('-')] : []),
    ...note.hints,
  ];
}

/** Semitones from the stopped to the touched and to the sounding note of every artificial harmonic, the fourth first: it is the usual one. */
const SHAPES = (['fourth', 'fifth', 'third', 'minor-third', 'octave', 'sixth'] as const).map((name) => {
  const { k, n } = ARTIFICIAL_NODES[name];
  return { touch: feelsLike(k, n).semitones, sounds: partialSemitones(n) };
});
/** Semitones from where a natural harmonic is touched (at its node next to the nut, or at 2/5) up to what it sounds. */
const OVERTONES = new Set(SHAPES.map((s) => s.sounds - s.touch));
const STEPS: Readonly<Record<number, number>> = { 3: 2, 4: 2, 5: 3, 7: 4, 9: 5, 12: 7 };

function touchOf(stop: Pitch, sound: Pitch | undefined): Pitch {
  const up = SHAPES.find((s) => sound && semitone(sound) - semitone(stop) === s.sounds)?.touch ?? 5;
  return transposed(stop, STEPS[up] ?? 3, up);
}

function soundingOf(stop: Pitch, touch: Pitch): number | undefined {
  const shape = SHAPES.find((s) => semitone(touch) - semitone(stop) === s.touch);
  return shape && semitone(stop) + shape.sounds;
}

function stopOf(touch: Pitch, sound: Pitch | undefined): Pitch {
  const down = SHAPES.find((s) => sound && semitone(sound) - semitone(touch) === s.sounds - s.touch)?.touch ?? 5;
  return transposed(touch, -(STEPS[down] ?? 3), -down);
}
