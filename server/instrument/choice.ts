import { oneOf, quoted } from '../../grammar/problems';
import type { Word } from '../../grammar/tree';
import { likeliest } from '../../grammar/values/likeliest';
import { fault, type Reading } from '../../grammar/values/read-value';
import type { ValueNodes } from '../../grammar/values/value-tree';
import { pitchName } from '../music/pitch';
import { canTune, knownSizes, LENGTHS, RETUNING, type Size, sizeLength, type Tuning, usualTuning } from './build';
import type { Family } from './instrument';

/** An instrument as a file names it. */
export interface InstrumentChoice {
  readonly family: Family;
  readonly size?: Size;
}

/** The instrument of these words, if it comes in that size. */
export function chooseInstrument({ family: { word: family }, size }: ValueNodes['instrument']): Reading<InstrumentChoice> {
  if (!size) return { value: { family } };
  const own: Size = 'mm' in size ? { mm: size.mm } : { name: size.name };
  if (sizeLength(family, own) !== undefined) return { value: { family, size: own } };
  const sizes = knownSizes(family);
  const { least, most } = LENGTHS[family];
  const name = 'mm' in size ? `${size.mm}mm` : size.name;
  return fault(
    size,
    `a ${family} doesn't come in ${quoted(name)}; give a size (${oneOf(sizes)}) or a string length from ${least}mm to ${most}mm`,
    'mm' in size ? [] : likeliest(name, sizes),
  );
}

/** The tuning of these words, if the strings of the family take it. */
export function chooseTuning(node: ValueNodes['tuning'], written: Word, family: Family): Reading<Tuning> {
  if ('word' in node) return { value: node.word };
  const usual = usualTuning(family).map(pitchName).join(' ');
  const tuning = node.pitches.map(({ letter, alter, octave }) => ({ letter, alter, octave }));
  if (tuning.length !== 4) {
    return fault(
      written,
      `a ${family} has four strings and ${quoted(written.text)} tunes ${tuning.length}; write all four, lowest first`,
      [usual],
    );
  }
  if (canTune(family, tuning)) return { value: tuning };
  const reversed = [...tuning].reverse();
  const why = `each string of a ${family} goes at most ${RETUNING} semitones from its usual ${usual}`;
  if (canTune(family, reversed)) {
    return fault(written, `${why}; write them lowest first`, [reversed.map(pitchName).join(' '), usual]);
  }
  const far = node.pitches.filter((_, index) => {
    const alone = usualTuning(family).map((pitch, at) => (at === index ? (tuning[at] as (typeof tuning)[number]) : pitch));
    return !canTune(family, alone);
  });
  const faults = far.flatMap((pitch) => {
    const meant = pitchName(usualTuning(family)[node.pitches.indexOf(pitch)] as (typeof tuning)[number]);
    const found = fault(pitch, `${why}, and ${quoted(pitchName(pitch))} lies further`, [meant]);
    return 'faults' in found ? found.faults : [];
  });
  return { faults };
}
