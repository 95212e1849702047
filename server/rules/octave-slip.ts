import { pitchName } from '../music/pitch';
import { printedPitch } from '../scene/words';
import { spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** The pitch can't be played, but can an octave or two away: most often a slip of the octave number. */
export default unplayableRule('octave-slip', ['out-of-range', 'no-harmonic'], (subject, { event, reason, relaxations }) => {
  const slip = relaxations.find((one) => one.kind === 'octaves');
  if (!slip || !('note' in reason)) return undefined;
  const { asked } = subject.passage.events[event]!.spec.notes[reason.note]!;
  if (asked.kind !== 'sounding') return undefined;
  const there = { ...asked.pitch, octave: asked.pitch.octave + slip.by };
  const how = reason.kind === 'no-harmonic' ? 'sound as a harmonic' : 'be played';
  return {
    span: spotOf(subject, event, reason.note),
    message: `${printedPitch(pitchName(asked.pitch))} can't ${how} on this ${subject.passage.setup.instrument.name}; ${printedPitch(pitchName(there))} can. Middle C is C4 and the tuning A is A4: check the octave number.`,
  };
});
