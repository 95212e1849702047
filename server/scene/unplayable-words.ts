import type { Relaxation, Unplayable, UnplayableReason } from '../solver/solution';
import { fingersWords, listed, mmWords } from './words';

/** Why an event can't be played and what would free it, for the account of the preview. */
export function unplayableWords({ reason, relaxations }: Unplayable): string {
  const first = relaxations[0];
  return `${reasonWords(reason)}${first ? ` It could be played ${relaxationWords(first)}.` : ''}`;
}

function reasonWords(reason: UnplayableReason): string {
  switch (reason.kind) {
    case 'out-of-range':
      return 'No string of this instrument can sound it.';
    case 'hints':
      return `The ${listed(reason.hints.map((hint) => `${hint} hint`))} leave${reason.hints.length === 1 ? 's' : ''} no way to play it.`;
    case 'stretch':
      return `It needs ${mmWords(reason.asked)} between ${fingersWords(...reason.fingers)}; this hand spans ${mmWords(reason.reach)}.`;
    case 'no-harmonic':
      return 'No harmonic with any room for the finger gives this pitch.';
    case 'same-string':
      return 'Both notes would need the same string.';
    case 'not-neighbours':
      return 'The strings of the two notes are not neighbours, so one bow cannot reach both.';
    case 'fingers':
      return 'The fingers would have to cross, or one be in two places.';
    case 'held':
      return 'The held note cannot be kept while this one is fingered.';
  }
}

function relaxationWords(relaxation: Relaxation): string {
  switch (relaxation.kind) {
    case 'fingering':
      return `on string ${listed(relaxation.fingering.ways.map(({ stringName }) => stringName))}`;
    case 'octaves': {
      const octaves = Math.abs(relaxation.by);
      return `${octaves === 1 ? 'an octave' : `${octaves} octaves`} ${relaxation.by < 0 ? 'lower' : 'higher'}`;
    }
    case 'reach':
      return `by a hand that spans ${mmWords(relaxation.reach)} between ${fingersWords(...relaxation.fingers)}`;
    case 'harmonic':
      return 'as a harmonic';
    case 'stopped':
      return 'stopped, not as a harmonic';
  }
}
