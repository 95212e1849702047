import { t } from '../l10n/translate';
import type { Relaxation, Unplayable, UnplayableReason } from '../solver/solution';
import { fingersWords, listed, mmWords } from './words';

/** Why an event can't be played and what would free it, for the account of the preview. */
export function unplayableWords({ reason, relaxations }: Unplayable): string {
  const first = relaxations[0];
  const why = reasonWords(reason);
  return first ? t('{why} It could be played {how}.', { why, how: relaxationWords(first) }) : why;
}

function reasonWords(reason: UnplayableReason): string {
  switch (reason.kind) {
    case 'out-of-range':
      return t('No string of this instrument can sound it.');
    case 'hints':
      return reason.hints.length === 1
        ? t('The {hint} hint leaves no way to play it.', { hint: reason.hints[0] as string })
        : t('The {hints} leave no way to play it.', {
            hints: listed(reason.hints.map((hint) => t('{hint} hint', { hint }))),
          });
    case 'stretch':
      return t('It needs {asked} between {fingers}; this hand spans {reach}.', {
        asked: mmWords(reason.asked),
        fingers: fingersWords(...reason.fingers),
        reach: mmWords(reason.reach),
      });
    case 'no-harmonic':
      return t('No harmonic with any room for the finger gives this pitch.');
    case 'same-string':
      return t('Both notes would need the same string.');
    case 'not-neighbours':
      return t('The strings of the two notes are not neighbours, so one bow cannot reach both.');
    case 'fingers':
      return t('The fingers would have to cross, or one be in two places.');
    case 'held':
      return t('The held note cannot be kept while this one is fingered.');
  }
}

function relaxationWords(relaxation: Relaxation): string {
  switch (relaxation.kind) {
    case 'fingering':
      return t('on string {strings}', { strings: listed(relaxation.fingering.ways.map(({ stringName }) => stringName)) });
    case 'octaves': {
      const octaves = Math.abs(relaxation.by);
      if (relaxation.by < 0) return octaves === 1 ? t('an octave lower') : t('{octaves} octaves lower', { octaves });
      return octaves === 1 ? t('an octave higher') : t('{octaves} octaves higher', { octaves });
    }
    case 'reach':
      return t('by a hand that spans {reach} between {fingers}', {
        reach: mmWords(relaxation.reach),
        fingers: fingersWords(...relaxation.fingers),
      });
    case 'harmonic':
      return t('as a harmonic');
    case 'stopped':
      return t('stopped, not as a harmonic');
  }
}
