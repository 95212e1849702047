import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import { printedPitch } from '../scene/words';
import { spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** The pitch is on no string, in any octave near. A pitch that only slipped by octaves is octave-slip's. */
export default unplayableRule('out-of-range', ['out-of-range'], (subject, { event, reason, relaxations }) => {
  if (reason.kind !== 'out-of-range' || relaxations.some(({ kind }) => kind === 'octaves')) return undefined;
  const { asked } = subject.passage.events[event]!.spec.notes[reason.note]!;
  const { name } = subject.passage.setup.instrument;
  return {
    span: spotOf(subject, event, reason.note),
    message:
      asked.kind === 'sounding'
        ? t(
            'No string of the {name} can play {pitch}: it lies below the lowest string or past the end of the fingerboard. Write another pitch, or another instrument or tuning.',
            { name, pitch: printedPitch(pitchName(asked.pitch)) },
          )
        : t(
            'No string of the {name} can play this printed form: it lies below the lowest string or past the end of the fingerboard. Write another pitch, or another instrument or tuning.',
            { name },
          ),
  };
});
