import { spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** One finger would have to be in two places, or the fingers cross. */
export default unplayableRule('crossed-fingers', ['fingers'], (subject, { event }) => ({
  span: spotOf(subject, event),
  message:
    'No set of fingers can take this: one finger would have to be in two places, or a higher finger behind a lower one. Choose other strings, or another form of harmonic.',
}));
