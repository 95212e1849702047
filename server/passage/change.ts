import type { MotifChange, NoteForm, NoteNode, PitchNode } from '../../grammar/tree';
import { diatonic, parseInterval, transposedBy } from '../music/interval';
import { type Pitch, semitone, step, transposed } from '../music/pitch';
import type { Atom, EventAtom } from './atom';

type Move = (pitch: Pitch) => Pitch;

/** Makes the changes of a motif's use, from left to right. */
export function changed(atoms: readonly Atom[], changes: readonly MotifChange[]): readonly Atom[] {
  return changes.reduce((now, change) => {
    if (change.kind === 'backwards') return backwards(now);
    const move = moveOf(change, now);
    return move
      ? now.map((atom) => (atom.kind === 'event' ? { ...atom, notes: atom.notes.map((note) => moved(note, move)) } : atom))
      : now;
  }, atoms);
}

function moveOf(change: Exclude<MotifChange, { kind: 'backwards' }>, atoms: readonly Atom[]): Move | undefined {
  switch (change.kind) {
    case 'interval': {
      // The reader of the text lets nothing else through; from another tree it is no change.
      const interval = parseInterval(change.interval.text);
      return interval && ((pitch) => transposedBy(pitch, interval, change.direction));
    }
    case 'on': {
      const first = atoms.find((atom): atom is EventAtom => atom.kind === 'event' && atom.notes.length > 0)?.notes[0];
      if (!first) return undefined;
      return along(writtenPitch(first.form), change.pitch);
    }
    case 'diatonic': {
      const steps = change.direction === 'up' ? change.steps : -change.steps;
      return (pitch) => diatonic(pitch, steps, change);
    }
  }
}

function writtenPitch(form: NoteForm): PitchNode {
  return form.kind === 'plain' ? form.pitch : form.kind === 'artificial' ? form.stop : form.touch;
}

/** As far as `to` lies from `from`. */
function along(from: Pitch, to: Pitch): Move {
  const [steps, semitones] = [step(to) - step(from), semitone(to) - semitone(from)];
  return (pitch) => transposed(pitch, steps, semitones);
}

function moved({ form, expected, ...note }: NoteNode, move: Move): NoteNode {
  // The shape of the hand stays: the touching finger, and what sounds, move as far as the stopping one.
  const own = form.kind === 'artificial' ? along(form.stop, move(form.stop)) : move;
  const at = ({ start, end, ...pitch }: PitchNode): PitchNode => ({ start, end, ...own(pitch) });
  return {
    ...note,
    form: movedForm(form, at),
    ...(expected && { expected: { ...expected, pitch: at(expected.pitch) } }),
  };
}

function movedForm(form: NoteForm, at: (pitch: PitchNode) => PitchNode): NoteForm {
  if (form.kind === 'plain') return { ...form, pitch: at(form.pitch) };
  if (form.kind === 'diamond') return { ...form, touch: at(form.touch) };
  return { ...form, stop: at(form.stop), touch: at(form.touch) };
}

/**
 * The last note first, each with its own duration, dynamic and stroke. A tie holds between the same two
 * notes, so its mark goes to the one that now comes first; a tie out of the end has nothing to hold into.
 */
function backwards(atoms: readonly Atom[]): readonly Atom[] {
  let before: EventAtom | undefined;
  let dynamic: EventAtom['dynamic'];
  return atoms
    .map((atom): Atom => {
      if (atom.kind === 'bar')
        return atom.style === '|:' ? { ...atom, style: ':|' } : atom.style === ':|' ? { ...atom, style: '|:' } : atom;
      const tied = before?.notes.filter(({ tie }) => tie) ?? [];
      before = atom.kind === 'event' ? atom : undefined;
      return atom.kind === 'event' ? { ...atom, notes: atom.notes.map((note) => retied(note, tied)) } : atom;
    })
    .reverse()
    .map((atom): Atom => {
      if (atom.kind !== 'event' && atom.kind !== 'rest') return atom;
      const { says: _, ...rest } = atom;
      if (rest.kind !== 'event') return rest;
      // A dynamic is printed where another one held, in the new order.
      const says = rest.dynamic === dynamic ? undefined : rest.dynamic;
      dynamic = rest.dynamic;
      return says ? { ...rest, says } : rest;
    });
}

function retied({ tie: _, ...note }: NoteNode, tied: readonly NoteNode[]): NoteNode {
  const pitch = semitone(writtenPitch(note.form));
  const tie = tied.find(({ form }) => semitone(writtenPitch(form)) === pitch)?.tie;
  return tie ? { ...note, tie } : note;
}
