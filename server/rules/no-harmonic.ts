import { pitchName } from '../music/pitch';
import { printedPitch } from '../scene/words';
import { deadlockRule } from './deadlock';
import { spotOf } from './spot';

/** It must be a harmonic, and none leaves the finger any room. */
export default deadlockRule('no-harmonic', ['no-harmonic'], (subject, { event, reason, relaxations }) => {
  if (reason.kind !== 'no-harmonic' || relaxations.some(({ kind }) => kind === 'octaves')) return undefined;
  const { asked } = subject.passage.events[event]!.spec.notes[reason.note]!;
  const what = asked.kind === 'sounding' ? `${printedPitch(pitchName(asked.pitch))} as a harmonic` : 'this harmonic';
  return {
    span: spotOf(subject, event, reason.note),
    message: `There is no way to sound ${what}: no node of any string gives it with any room left for the finger, whose own width damps the other partials too. Stop the note instead, or ask for another pitch.`,
  };
});
