import { t } from '../l10n/translate';
import { stringsSpot } from './spot';
import { unplayableRule } from './unplayable';

/** The strings of a double stop are not neighbours. */
export default unplayableRule('far-strings', ['not-neighbours'], (subject, { event }) => ({
  span: stringsSpot(subject, event),
  message: t(
    "The strings of these two notes are not neighbours, so the bow can't sound both without the string between. Move one note to the string beside the other.",
  ),
}));
