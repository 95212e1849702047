import { deadlockRule } from './deadlock';
import { spotOf } from './spot';

/** One finger would have to be in two places, or the fingers cross. */
export default deadlockRule('crossed-fingers', ['fingers'], (subject, { event }) => ({
  span: spotOf(subject, event),
  message:
    'No set of fingers can take this: one finger would have to be in two places, or a higher finger behind a lower one. Choose other strings, or another form of harmonic.',
}));
