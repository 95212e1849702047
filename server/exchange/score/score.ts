import type { Family } from '../../instrument/instrument';
import { t } from '../../l10n/translate';
import { Unreadable } from '../unreadable';
import type { Losses } from './losses';
import type { Measure } from './measure';

/** What a score of any format says of itself as a whole, and its parts. */
export interface Score {
  /** Title of the work, and of this movement of it; either may be missing. */
  readonly work?: string;
  readonly movement?: string;
  /** `composer: …` and the like, and the rights, as printed. */
  readonly credits: readonly string[];
  /** Named values that a program left in the file for itself. */
  readonly fields: ReadonlyMap<string, string>;
  readonly parts: readonly ScorePart[];
  /** Of a file of several tunes. */
  readonly tunes?: readonly TuneName[];
}

/** A tune by its number in the file, with its title where it has one. */
export interface TuneName {
  readonly number: string;
  readonly title: string;
}

export interface ScorePart {
  readonly id: string;
  /** As printed, or the id where nothing is. */
  readonly name: string;
  readonly family?: Family;
  /** Its measures in order; what they don't say as the score does, or had to be assumed, goes to `losses`. */
  measures(losses: Losses): readonly Measure[];
}

/**
 * The part to read: a number counts from 1, anything else is a printed name or an id; else the first for
 * violin, viola or cello; else the first.
 *
 * @throws Unreadable naming the parts there are, where none or more than one is meant.
 */
export function choosePart(parts: readonly ScorePart[], wanted?: string): ScorePart {
  if (wanted === undefined) return (parts.find((p) => p.family) ?? parts[0]) as ScorePart;
  const folded = wanted.trim().toLowerCase();
  const counted = /^\d+$/.test(folded) ? parts[Number(folded) - 1] : undefined;
  const named = parts.filter((p) => p.name.toLowerCase() === folded);
  const found = counted ?? named[0] ?? parts.find((p) => p.id.toLowerCase() === folded);
  const list = (some: readonly ScorePart[]) => some.map((p) => `${parts.indexOf(p) + 1} ${p.name}`).join(', ');
  if (!found) throw new Unreadable(t('The score has no part “{wanted}”. Its parts are: {list}.', { wanted, list: list(parts) }));
  if (!counted && named.length > 1)
    throw new Unreadable(
      t('More than one part is called “{wanted}”: {list}. Name the part by its number.', { wanted, list: list(named) }),
    );
  return found;
}

/** True where a number was asked for that another part has for its name. */
export function isAlsoName(parts: readonly ScorePart[], chosen: ScorePart, wanted: string | undefined): boolean {
  return wanted !== undefined && parts.some((p) => p !== chosen && p.name.toLowerCase() === wanted.trim().toLowerCase());
}

/** A text on one line, with nothing in it that opens a comment in a passage. */
export function oneLine(text: string): string {
  return text.replace(/\s+/g, ' ').replace(/\/\/+/g, '/').trim();
}

/** Instrument names as parts print them, in the languages of most editions; the order decides: a violoncello is no violin. */
const FAMILY_NAMES: readonly (readonly [Family, RegExp])[] = [
  ['cello', /cell[oie]|\bvlc\b|\bvc\b/i],
  ['viola', /\bviol[ae]\b|bratsche|\balto\b|\bvla\b|\bva\b/i],
  ['violin', /violin|violon\b|violons\b|geige|\bvln\b|\bvl\b|\bvn\b|fiddle/i],
];

/** The instrument that a part's name, or failing that another of its names, tells. */
export function familyNamed(names: readonly string[]): Family | undefined {
  for (const text of names) {
    const found = FAMILY_NAMES.find(([, pattern]) => pattern.test(text));
    if (found) return found[0];
  }
  return undefined;
}
