import { t } from '../l10n/translate';
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
  const holes = {
    pitch: printedPitch(pitchName(asked.pitch)),
    instrument: subject.passage.setup.instrument.name,
    there: printedPitch(pitchName(there)),
  };
  return {
    span: spotOf(subject, event, reason.note),
    message:
      reason.kind === 'no-harmonic'
        ? t(
            "{pitch} can't sound as a harmonic on this {instrument}; {there} can. Middle C is C4 and the tuning A is A4: check the octave number.",
            holes,
          )
        : t(
            "{pitch} can't be played on this {instrument}; {there} can. Middle C is C4 and the tuning A is A4: check the octave number.",
            holes,
          ),
  };
});
