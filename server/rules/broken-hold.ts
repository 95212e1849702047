import { deadlockRule } from './deadlock';
import { spotOf } from './spot';

/** A held note can't be kept under the fingers of what comes next. */
export default deadlockRule('broken-hold', ['held'], (subject, { event }) => ({
  span: spotOf(subject, event),
  message:
    "The note held over from before can't be kept here: its finger or string is needed for the other note. Let it go (take away the `_`), or give the other note another string.",
}));
