import { pitchName } from '../music/pitch';
import { printedPitch } from '../scene/words';
import { spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** The pitch is on no string, in any octave near. A pitch that only slipped by octaves is octave-slip's. */
export default unplayableRule('out-of-range', ['out-of-range'], (subject, { event, reason, relaxations }) => {
  if (reason.kind !== 'out-of-range' || relaxations.some(({ kind }) => kind === 'octaves')) return undefined;
  const { asked } = subject.passage.events[event]!.spec.notes[reason.note]!;
  const { name } = subject.passage.setup.instrument;
  const what = asked.kind === 'sounding' ? printedPitch(pitchName(asked.pitch)) : 'this printed form';
  return {
    span: spotOf(subject, event, reason.note),
    message: `No string of the ${name} can play ${what}: it lies below the lowest string or past the end of the fingerboard. Write another pitch, or another instrument or tuning.`,
  };
});
