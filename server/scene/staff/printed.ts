import type { SceneEvent, SceneNote } from '../../protocol/scene';

/** One notehead: a diamond is touched, a round one sounds where it stands (stopped, open, or under a circle). */
export interface PrintedNote {
  readonly pitch: string;
  readonly head: 'round' | 'diamond';
  /** Index of the note of the event that it belongs to. */
  readonly note: number;
  /** Under the trade's small circle: sounds as a harmonic at this very pitch. */
  readonly circle: boolean;
}

/** An event as the trade prints it; of an event that can't be played, what was asked. */
export function printedNotes(event: SceneEvent): readonly PrintedNote[] {
  if (event.notes.length > 0) return event.notes.flatMap((note, index) => printedNote(note, index));
  return event.asked.flatMap((asked, note): PrintedNote[] => {
    if (asked.kind === 'sounding') return [{ pitch: asked.pitch, head: 'round', note, circle: asked.harmonic }];
    const touch: PrintedNote = { pitch: asked.touch, head: 'diamond', note, circle: false };
    return asked.kind === 'diamond' ? [touch] : [{ pitch: asked.stop, head: 'round', note, circle: false }, touch];
  });
}

/**
 * A natural harmonic is a lone diamond where it is touched, or, touched where it sounds, a round note under
 * a circle; an artificial one is a round note for the finger that stops with a diamond above it.
 */
function printedNote(note: SceneNote, index: number): readonly PrintedNote[] {
  const at = { note: index, circle: false };
  if (note.kind === 'natural' && note.touch) {
    if (note.touch.pitch === note.sounding) return [{ ...at, pitch: note.sounding, head: 'round', circle: true }];
    return [{ ...at, pitch: note.touch.pitch, head: 'diamond' }];
  }
  if (note.kind === 'artificial' && note.stop && note.touch) {
    return [
      { ...at, pitch: note.stop.pitch, head: 'round' },
      { ...at, pitch: note.touch.pitch, head: 'diamond' },
    ];
  }
  return [{ ...at, pitch: note.sounding, head: 'round' }];
}

/** True where the printed notes do not say what sounds, so that it is told in brackets. */
export function soundsElsewhere(note: SceneNote): boolean {
  return note.kind === 'artificial' || (note.kind === 'natural' && note.touch?.pitch !== note.sounding);
}
