import type { IToken } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { INTERVAL_NAMES, isInterval, likelyIntervals } from './interval-words';
import { readKeyName, readPitch, spanOf } from './pitch-words';
import { problem, quoted, type Report, write } from './problems';
import { SETTING_KEYS } from './settings';
import { Name, Pitch, tokenize } from './tokens';
import type { MotifChange, Span } from './tree';
import { isOtherDynamic } from './unreadable';

const STEPS = /^[1-9][0-9]?$/;

/** True when `word` is free to be a motif's name: one word that means nothing else in the language. */
export function isMotifName(word: string): boolean {
  const tokens = tokenize(word);
  const [first] = tokens;
  const free = tokens.length === 1 && first?.tokenType === Name && first.image === word;
  return free && !isOtherDynamic(word) && word !== 'passage' && !SETTING_KEYS.includes(word);
}

/** May this token be meant as the amount after `up` or `down`? A pitch that is no interval is the next note. */
export function isAmount({ image, tokenType }: IToken): boolean {
  return isInterval(image) || (tokenType !== Pitch && /^[a-zA-Z]{0,3}[0-9]{1,2}(?:st|nd|rd|th)?$/.test(image));
}

export function isKeyName(word: string): boolean {
  return /^[A-Ha-g](?:#|b|♯|♭)?$/.test(word);
}

/** `up M2`, `down P4`. */
export function readIntervalChange(direction: IToken, amount: IToken | undefined, report: Report): MotifChange | undefined {
  if (amount && isInterval(amount.image)) {
    return {
      kind: 'interval',
      ...between(direction, amount),
      direction: direction.image as 'up' | 'down',
      interval: { ...spanOf(amount), text: amount.image },
    };
  }
  const place = spanOf(amount ?? direction);
  const steps = amount && STEPS.test(amount.image);
  const why = !amount
    ? t('“{direction}” does not say how far. Write an interval after it: {intervals}.', {
        direction: direction.image,
        intervals: INTERVAL_NAMES,
      })
    : steps
      ? t(
          '{written} is not an interval. Name the kind of interval too, or the key for steps along a scale: in D major {direction} {steps}.',
          { written: quoted(amount.image), direction: direction.image, steps: amount.image },
        )
      : t('{written} is not an interval. Write an interval after it: {intervals}.', {
          written: quoted(amount.image),
          intervals: INTERVAL_NAMES,
        });
  report(problem('motif-change', place, why, amount ? likelyIntervals(amount.image) : []));
  return undefined;
}

/** `on E5`. */
export function readOnChange(on: IToken, target: IToken | undefined, report: Report): MotifChange | undefined {
  if (target?.tokenType === Pitch) {
    const { pitch, circle } = readPitch(target);
    if (circle) reportCircle(circle, report);
    return { kind: 'on', ...between(on, target), pitch };
  }
  const why = t(
    '“on” moves a motif so that it starts on a pitch, and that pitch is missing. Write it after “on”, with its octave: on E5.',
  );
  const fixes = target && isKeyName(target.image) ? [write(`${target.image[0]?.toUpperCase()}${target.image.slice(1)}5`)] : [];
  report(problem('motif-change', spanOf(target ?? on), why, fixes));
  return undefined;
}

/** The words of `in D major up 2`, as far as they were written. */
export interface DiatonicWords {
  readonly tonic?: IToken | undefined;
  readonly mode?: IToken | undefined;
  readonly direction?: IToken | undefined;
  readonly steps?: IToken | undefined;
}

export function readDiatonicChange(start: IToken, words: DiatonicWords, report: Report): MotifChange | undefined {
  const { tonic, mode, direction, steps } = words;
  const key = tonic && readKeyName(tonic);
  const last = steps ?? direction ?? mode ?? tonic ?? start;
  if (key && mode && direction && steps && STEPS.test(steps.image)) {
    return {
      kind: 'diatonic',
      ...between(start, last),
      direction: direction.image as 'up' | 'down',
      steps: Number(steps.image),
      tonic: key,
      mode: mode.image as 'major' | 'minor',
    };
  }
  const missing = !key
    ? t('the key note')
    : !mode
      ? t('major or minor')
      : !direction
        ? t('up or down')
        : t('the number of steps');
  const why = t(
    "A move along a scale needs four things after “in”: key note, major or minor, up or down, and the number of steps. Here {missing} is missing or can't be read. Write it like: in D major up 2.",
    { missing },
  );
  const name = key ? tonic.image : 'D';
  const number = steps && STEPS.test(steps.image) ? steps.image : '2';
  const whole = `in ${name} ${mode?.image ?? 'major'} ${direction?.image ?? 'up'} ${number}`;
  report(problem('motif-change', between(start, last), why, [write(whole)]));
  return undefined;
}

export function reportCircle(circle: Span, report: Report): void {
  const why = t(
    'The circle marks a pitch that must sound as a harmonic; a pitch that is stopped, touched or only named takes none. Remove it.',
  );
  report(problem('circle-misplaced', circle, why, [{ title: t('Remove the circle'), text: '' }]));
}

function between(first: IToken, last: IToken): Span {
  return { start: first.startOffset, end: spanOf(last).end };
}
