import Fraction from 'fraction.js';
import { t } from '../../l10n/translate';
import type { TextBar } from './bars';
import type { Losses } from './losses';
import type { Measure } from './measure';

/** Bars that the score prints as one rest made one; where they are none, that is told. */
export function writtenAsOne(bars: readonly TextBar[], measures: readonly Measure[], losses: Losses): readonly TextBar[] {
  const joined: TextBar[] = [];
  let full: Fraction | undefined;
  let next = 0;
  for (const [at, bar] of bars.entries()) {
    full = meterIn(bar) ?? full;
    if (at < next) continue;
    next = at + 1;
    const { restsTogether: count, label } = measures[at] as Measure;
    if (count === undefined) {
      joined.push(bar);
      continue;
    }
    const these = bars.slice(at, at + count);
    const whole =
      these.length === count &&
      these.every((each, i) => isRest(each, full) && (i === 0 || opensPlainly(each)) && (i === count - 1 || closesPlainly(each)));
    if (!whole) {
      losses.changed(label, t('a rest of several bars that holds more than rests, written bar by bar'));
      joined.push(bar);
      continue;
    }
    const { close, ends } = these.at(-1) as TextBar;
    joined.push({ ...bar, close, ends, rests: count });
    next = at + count;
  }
  return joined;
}

function meterIn({ settings }: TextBar): Fraction | undefined {
  const written = settings.findLast((line) => line.startsWith('meter: '))?.slice('meter: '.length);
  return written !== undefined && /^\d+\/\d+$/.test(written) ? new Fraction(written) : undefined;
}

function isRest({ slices, words }: TextBar, full: Fraction | undefined): boolean {
  const [rest, ...more] = slices;
  return (
    rest !== undefined &&
    full !== undefined &&
    more.length === 0 &&
    rest.notes.length + rest.printed.length === 0 &&
    rest.duration.equals(full) &&
    [...words.values()].every((said) => said.length === 0)
  );
}

function opensPlainly({ settings, instructions, opens }: TextBar): boolean {
  return settings.length + instructions.length + opens.length === 0;
}

function closesPlainly({ ends, close }: TextBar): boolean {
  return ends.length === 0 && close === '|';
}
