import { t } from '../l10n/translate';
import { stringsSpot } from './spot';
import { unplayableRule } from './unplayable';

/** Both notes of a double stop need the same string. */
export default unplayableRule('same-string', ['same-string'], (subject, { event }) => ({
  span: stringsSpot(subject, event),
  message: t(
    'Both notes would have to be on the same string, which sounds only one at a time. Move one to a neighbouring string, or write them one after the other.',
  ),
}));
