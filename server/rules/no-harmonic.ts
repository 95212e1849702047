import { CONSTANTS } from '../instrument/constants';
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
  const what = asked.kind === 'sounding' ? `${printedPitch(pitchName(asked.pitch))} as a harmonic` : 'this harmonic';
  const closed = closedWay(subject, event, reason.note);
  const why = closed ? noRoom(closed) : 'No natural or artificial harmonic of this instrument gives that pitch.';
  return {
    span: spotOf(subject, event, reason.note),
    message: `There is no way to sound ${what}. ${why} Stop the note instead, or ask for another harmonic.`,
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
  return `With ${mmWords(length)} of the ${stringName} string left to sound there is no room at all: a finger ${CONSTANTS.fingerWidth.value} mm wide damps partial ${partial} as much as the partials beside it.`;
}
