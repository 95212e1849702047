import { t } from '../l10n/translate';
import { spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** One finger would have to be in two places, or the fingers cross. */
export default unplayableRule('crossed-fingers', ['fingers'], (subject, { event }) => ({
  span: spotOf(subject, event),
  message: t(
    'No fingering fits: one finger would have to be in two places, or a higher finger behind a lower one. Choose other strings, or another kind of harmonic.',
  ),
}));
