import { STRING_NAMES } from '../../../grammar/hint-names';
import type { Finger, StringNumber } from '../../../grammar/tree';
import { t } from '../../l10n/translate';
import { type Pitch, pitchName, semitone } from '../../music/pitch';
import type { Losses } from './losses';
import { paired, takePlainSound, takeSound } from './pairing';
import { soundingOf, stopOf, touchOf } from './shapes';
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

/** Two harmonics with all that can be printed of them are six heads; more than twice that is no chord of a bowed string. */
const MOST_HEADS = 16;

/**
 * Which note heads of a chord make one note together: a stopped note with its diamond, and either
 * with the sounding pitch printed beside it in brackets. The names that MusicXML gives the heads
 * decide; where there are none, the shapes and the intervals do: a plain head on the pitch that the
 * harmonic sounds says so, whatever is printed at it.
 */
export function formsOf(
  heads: readonly WrittenNote[],
  openStrings: readonly Pitch[],
  measure: string,
  losses: Losses,
): readonly Form[] {
  const notes = heads.slice(0, MOST_HEADS);
  if (heads.length > MOST_HEADS)
    losses.notesLeftOut(
      measure,
      t('all but {most} notes of a chord', { most: MOST_HEADS }),
      t('of {count}', { count: heads.length }),
    );
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
    const sound = takeSound(sounds, { base, touch }) ?? takePlainSound(bases, { base, touch }, openStrings);
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
    losses.notesChanged(
      measure,
      t('an artificial harmonic that shows only its touched note, taken as a fourth'),
      t('{pitch} on {stop}', { pitch: pitchName(touch.pitch), stop: pitchName(stop) }),
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
    losses.notesChanged(
      measure,
      t('a natural harmonic that shows only its open string, written as that open string'),
      pitchName(base.pitch),
    );
    return { text: pitchName(base.pitch), hints: [], tied: base.tied, pitch: base.pitch };
  }
  const touch = touchOf(base.pitch, sound?.pitch);
  if (!sound) {
    losses.notesChanged(
      measure,
      t('an artificial harmonic that shows only its stopped note, taken as a fourth'),
      t('{pitch}, touched at {touch}', { pitch: pitchName(base.pitch), touch: pitchName(touch) }),
    );
  } else if (soundingOf(base.pitch, touch) !== semitone(sound.pitch)) {
    losses.notesChanged(
      measure,
      t('an artificial harmonic that can’t sound the pitch beside it, taken as a fourth'),
      t('{pitch} on {base}', { pitch: pitchName(sound.pitch), base: pitchName(base.pitch) }),
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

/**
 * The trade's circle over a sounding pitch: programs put the bare mark over what sounds, natural or not. So a score's word for how it
 * is made is a hint only where it also says which pitch it means.
 */
function circled(note: WrittenNote, measure: string, losses: Losses, key = note.pitch): Form {
  const said = note.harmonic;
  const manner = said?.kind && (said.names === 'sound' || said.kind === 'artificial') ? [said.kind] : [];
  if (note.fingers.includes(0)) losses.changed(measure, t('a 0 over a harmonic, read as the harmonic mark'));
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
    losses.notesChanged(
      measure,
      t('an open-string sign over a pitch that no open string sounds, read as a harmonic'),
      pitchName(note.pitch),
    );
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
  losses.leftOut(
    measure,
    t('the touching finger of an artificial harmonic whose stopping finger is not named'),
    `${touch.fingers[0]}`,
  );
  return [];
}

function hintsOf(note: Hinted, artificial: boolean, measure: string, losses: Losses): readonly string[] {
  const most = artificial ? 2 : 1;
  if (note.fingers.length > most)
    losses.leftOut(measure, t('more fingers than the note has'), note.fingers.slice(most).join(' '));
  return [
    ...(note.string ? [STRING_NAMES[note.string - 1] as string] : []),
    ...(note.fingers.length > 0 ? [note.fingers.slice(0, most).join('-')] : []),
    ...note.hints,
  ];
}
