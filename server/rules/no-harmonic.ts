import { CONSTANTS } from '../instrument/constants';
import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import type { NoteSpec, Setup } from '../passage/passage';
import { mmWords, printedPitch } from '../scene/words';
import { meetsPins } from '../solver/pins';
import type { Way } from '../solver/way';
import { waysOf } from '../solver/ways';
import type { Subject } from './rule';
import { spotOf } from './spot';
import { unplayableRule } from './unplayable';

/** It must be a harmonic, and none leaves the finger any room. */
export default unplayableRule('no-harmonic', ['no-harmonic'], (subject, { event, reason, relaxations }) => {
  if (reason.kind !== 'no-harmonic' || relaxations.some(({ kind }) => kind === 'octaves')) return undefined;
  const { asked } = subject.passage.events[event]!.spec.notes[reason.note]!;
  const closed = closedWay(subject, event, reason.note);
  const why = closed ? noRoom(closed) : t('No natural or artificial harmonic of this instrument gives that pitch.');
  return {
    span: spotOf(subject, event, reason.note),
    message:
      asked.kind === 'sounding'
        ? t('There is no way to sound {pitch} as a harmonic. {why} Stop the note instead, or ask for another harmonic.', {
            pitch: printedPitch(pitchName(asked.pitch)),
            why,
          })
        : t('There is no way to sound this harmonic. {why} Stop the note instead, or ask for another harmonic.', { why }),
  };
});

/** A harmonic that a note asks for, hints and all, and that leaves the finger no room; undefined where there is none. */
export function closedWay({ passage }: Subject, event: number, note: number): Way | undefined {
  const { setup } = passage;
  const spec = passage.events[event]!.spec.notes[note]!;
  const known = memory.get(spec);
  if (known?.setup === setup) return known.way;
  const way = waysOf(spec, setup).find((one) => one.tolerance === 0 && meetsPins(one, spec.pins));
  memory.set(spec, { setup, way });
  return way;
}

/** Equal notes of a passage are one object. */
const memory = new WeakMap<NoteSpec, { readonly setup: Setup; readonly way: Way | undefined }>();

/** Why nothing can be done with it. */
export function noRoom({ partial, length, stringName }: Way): string {
  return t(
    'With {length} of the {string} string left to sound there is no room at all: a finger {fingerWidth} mm wide damps partial {partial} as much as the partials beside it.',
    { length: mmWords(length), string: stringName, fingerWidth: CONSTANTS.fingerWidth.value, partial },
  );
}
