import type { Performance, Played, PlayedNote } from './played';

/** Something true of a fingering that needs no list of fingers: in a teacher's words, with the check. */
export interface Property {
  readonly says: string;
  /** What breaks it, or undefined. */
  readonly fault: (performance: Performance) => string | undefined;
}

export function allOn(string: string): Property {
  return everyNote(`all on string ${string}`, (note) => note.string === string);
}

export const NO_OPEN_STRING = everyNote('no open string', ({ kind }) => kind !== 'open');

export function inPositions(...positions: readonly number[]): Property {
  return {
    says: `the hand in position ${positions.join(' or ')} throughout`,
    fault: ({ played }) =>
      firstFault(played, (event) => fingered(event).length === 0 || positions.includes(event.position), 'is elsewhere'),
  };
}

/** Changes of position, counted between notes that have a finger down. */
export function shiftsAtMost(most: number): Property {
  return {
    says: `at most ${most} ${most === 1 ? 'shift' : 'shifts'}`,
    fault: ({ played }) => {
      const found = shiftsIn(played);
      return found.length > most ? `shifts onto notes ${found.map((index) => index + 1).join(', ')}` : undefined;
    },
  };
}

/** `notes` count from 1. */
export function shiftsOnlyOnto(...notes: readonly number[]): Property {
  return {
    says: `shifts only onto ${notes.length === 1 ? 'note' : 'notes'} ${notes.join(', ')}`,
    fault: ({ played }) => {
      const wrong = shiftsIn(played).filter((index) => !notes.includes(index + 1));
      return wrong.length > 0 ? `shifts onto notes ${wrong.map((index) => index + 1).join(', ')}` : undefined;
    },
  };
}

/** Runs of one figure, each beginning at a note counted from 1: same strings, same fingers. */
export function alike(length: number, ...starts: readonly number[]): Property {
  return sameFigure('the figure is fingered alike each time', length, starts, ({ text }) => text);
}

/** The same fingers each time; strings may differ, as in a sequence. */
export function fingersAlike(length: number, ...starts: readonly number[]): Property {
  return sameFigure('every group has the same fingers', length, starts, ({ finger, touching }) =>
    touching ? `${finger}-${touching}` : `${finger}`,
  );
}

export const REPEATED_NOTES_ALIKE: Property = {
  says: 'a repeated note keeps its finger',
  fault: ({ played }) =>
    eachStep(played, (before, after) =>
      before.pitch === after.pitch && before.text !== after.text ? `${before.text} then ${after.text}` : undefined,
    ),
};

/** A half step may be taken by one finger; anything wider on one finger is a slide that is heard. */
export const NO_FINGER_TWICE: Property = {
  says: 'no finger goes to another note further than a half step on its string, two notes running',
  fault: ({ played }) =>
    eachStep(played, (before, after) =>
      before.kind !== 'open' &&
      before.finger === after.finger &&
      before.string === after.string &&
      Math.abs(before.pitch - after.pitch) > 1
        ? `${before.text} to ${after.text}`
        : undefined,
    ),
};

/**
 * How a scale goes up or down one string: finger after finger; on to a fresh first or second finger (coming down, from the first
 * or second to a higher one); one finger twice for a half step, and never three times.
 */
export const RUNS_LIKE_A_SCALE: Property = {
  says: 'fingers follow each other as in a scale; shifts to a fresh first or second finger, or by a half step on one finger',
  fault: ({ played }) => {
    const steps = played.map(({ notes }) => notes[0]!);
    for (let index = 1; index < steps.length; index++) {
      const [before, after] = [steps[index - 1]!, steps[index]!];
      if (before.string !== after.string || before.kind !== 'stopped' || after.kind !== 'stopped') continue;
      const third = steps[index + 1];
      const thrice = third?.string === after.string && third.finger === after.finger && before.finger === after.finger;
      if (thrice || !follows(before, after)) return `notes ${index} and ${index + 1}, ${before.text} to ${after.text}`;
    }
    return undefined;
  },
};

function follows(before: PlayedNote, after: PlayedNote): boolean {
  const rise = after.pitch - before.pitch;
  if (before.finger === after.finger) return Math.abs(rise) <= 1;
  const [lower, upper] = rise > 0 ? [before, after] : [after, before];
  return upper.finger > lower.finger || Number(upper.finger) <= 2;
}

export const NO_STRING_AGAIN: Property = {
  says: 'goes over to the next string for good',
  fault: ({ played }) => {
    const left = new Set<string>();
    return eachStep(played, (before, after) => {
      if (before.string === after.string) return undefined;
      left.add(before.string);
      return left.has(after.string) ? `comes back to ${after.string} at ${after.text}` : undefined;
    });
  },
};

/** What the tool proposes of itself, it must not then warn about. */
export const UNWARNED: Property = { says: 'nothing that a rule warns about', fault: ({ warnings }) => warnings[0] };

function everyNote(says: string, holds: (note: PlayedNote) => boolean): Property {
  return { says, fault: ({ played }) => firstFault(played, ({ notes }) => notes.every(holds), 'is not so') };
}

function firstFault(played: readonly Played[], holds: (event: Played) => boolean, complaint: string): string | undefined {
  const index = played.findIndex((event) => !holds(event));
  return index < 0 ? undefined : `note ${index + 1}, ${textOf(played[index]!)}, ${complaint}`;
}

function sameFigure(says: string, length: number, starts: readonly number[], sign: (note: PlayedNote) => string): Property {
  return {
    says,
    fault: ({ played }) => {
      const figures = starts.map((start) =>
        played
          .slice(start - 1, start - 1 + length)
          .map(({ notes }) => notes.map(sign).join('+'))
          .join(' '),
      );
      const other = figures.findIndex((figure) => figure !== figures[0]);
      return other < 0 ? undefined : `from note ${starts[0]} ${figures[0]}, from note ${starts[other]} ${figures[other]}`;
    },
  };
}

/** Looks at every step between single notes. */
function eachStep(
  played: readonly Played[],
  look: (before: PlayedNote, after: PlayedNote) => string | undefined,
): string | undefined {
  for (let index = 1; index < played.length; index++) {
    const [before, after] = [played[index - 1]!.notes, played[index]!.notes];
    if (before.length !== 1 || after.length !== 1) continue;
    const found = look(before[0]!, after[0]!);
    if (found) return found;
  }
  return undefined;
}

/** Indices of the notes that a shift leads onto. */
function shiftsIn(played: readonly Played[]): readonly number[] {
  const found: number[] = [];
  let last: number | undefined;
  for (const [index, event] of played.entries()) {
    if (fingered(event).length === 0) continue;
    if (last !== undefined && event.position !== last) found.push(index);
    last = event.position;
  }
  return found;
}

function fingered({ notes }: Played): readonly PlayedNote[] {
  return notes.filter(({ kind }) => kind !== 'open');
}

function textOf({ notes }: Played): string {
  return notes.map(({ text }) => text).join('+');
}
