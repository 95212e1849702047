import Fraction from 'fraction.js';
import type { Tempo } from '../music/meter';
import { type Exact, one } from '../music/time';

const wholes = new WeakMap<Tempo, Exact>();

/** Seconds in a whole note. */
export function wholeNote(tempo: Tempo): Exact {
  const known = wholes.get(tempo) ?? one(tempo.beat.mul(new Fraction(tempo.bpm)).inverse().mul(60));
  wholes.set(tempo, known);
  return known;
}
