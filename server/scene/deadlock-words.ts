import type { Deadlock, DeadlockReason } from '../solver/solution';
import { fingerWords, listed, mmWords } from './words';

/** Why an event can't be played and what would free it, for the account of the preview. */
export function deadlockWords({ reason, relaxations }: Deadlock): string {
  const first = relaxations[0];
  return `${reasonWords(reason)}${first ? ` Nearest way out: ${first.title}.` : ''}`;
}

function reasonWords(reason: DeadlockReason): string {
  switch (reason.kind) {
    case 'out-of-range':
      return 'No string of this instrument can sound it.';
    case 'hints':
      return `The hints ${listed(reason.hints.map((hint) => `«${hint}»`))} leave no way to play it.`;
    case 'stretch':
      return `It asks ${mmWords(reason.asked)} between ${fingerWords(reason.fingers[0])} and ${fingerWords(reason.fingers[1])}; this hand has ${mmWords(reason.reach)}.`;
    case 'no-harmonic':
      return 'No harmonic with any room for the finger gives this pitch.';
    case 'same-string':
      return 'Both notes would need the same string.';
    case 'not-neighbours':
      return 'The strings of the two notes are not neighbours, so one bow cannot reach both.';
    case 'held':
      return 'The held note cannot be kept while this one is fingered.';
  }
}
