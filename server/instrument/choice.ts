import { oneOf, quoted } from '../../grammar/problems';
import type { Word } from '../../grammar/tree';
import { likeliest } from '../../grammar/values/likeliest';
import { fault, type Reading } from '../../grammar/values/read-value';
import type { ValueNodes } from '../../grammar/values/value-tree';
import { t } from '../l10n/translate';
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
    t("a {family} doesn't come in {name}; give a size ({sizes}) or a string length from {least}mm to {most}mm", {
      family,
      name: quoted(name),
      sizes: oneOf(sizes),
      least,
      most,
    }),
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
      t('a {family} has four strings and {written} tunes {count}; write all four, lowest first', {
        family,
        written: quoted(written.text),
        count: tuning.length,
      }),
      [usual],
    );
  }
  if (canTune(family, tuning)) return { value: tuning };
  const reversed = [...tuning].reverse();
  const holes = { family, most: RETUNING, usual };
  if (canTune(family, reversed)) {
    return fault(
      written,
      t('each string of a {family} goes at most {most} semitones from its usual {usual}; write them lowest first', holes),
      [reversed.map(pitchName).join(' '), usual],
    );
  }
  const far = node.pitches.filter((_, index) => {
    const alone = usualTuning(family).map((pitch, at) => (at === index ? (tuning[at] as (typeof tuning)[number]) : pitch));
    return !canTune(family, alone);
  });
  const faults = far.flatMap((pitch) => {
    const meant = pitchName(usualTuning(family)[node.pitches.indexOf(pitch)] as (typeof tuning)[number]);
    const found = fault(
      pitch,
      t('each string of a {family} goes at most {most} semitones from its usual {usual}, and {pitch} lies further', {
        ...holes,
        pitch: quoted(pitchName(pitch)),
      }),
      [meant],
    );
    return 'faults' in found ? found.faults : [];
  });
  return { faults };
}
