import type { Family } from '../../instrument/instrument';
import { Unreadable } from '../unreadable';
import { attribute, child, children, type Element, textOf } from './element';

/** What a score says of itself as a whole, and its parts with their measures in order. */
export interface Score {
  /** Title of the work, and of this movement of it; either may be missing. */
  readonly work?: string;
  readonly movement?: string;
  /** `composer: …` and the like, and the rights, as printed. */
  readonly credits: readonly string[];
  /** Named values that a program left in the file for itself. */
  readonly fields: ReadonlyMap<string, string>;
  readonly parts: readonly ScorePart[];
}

export interface ScorePart {
  readonly id: string;
  /** As printed, or the id where nothing is. */
  readonly name: string;
  readonly family?: Family;
  readonly measures: readonly Element[];
}

/** Reads a score of either layout; MusicXML's time-wise layout is turned into part-wise. */
export function readScore(root: Element): Score {
  const listed = children(child(root, 'part-list'), 'score-part');
  const measures = root.name === 'score-timewise' ? timewise(root) : partwise(root);
  const parts = listed.flatMap((part) => {
    const id = attribute(part, 'id') ?? '';
    const own = measures.get(id);
    if (!own) return [];
    const name = textOf(part, 'part-name') ?? textOf(child(part, 'part-name-display'), 'display-text') ?? id;
    const family = familyOf(part, name);
    return [{ id, name: oneLine(name), measures: own, ...(family && { family }) }];
  });
  if (parts.length === 0)
    throw new Unreadable('The score has no part with music in it. Export it again, with at least one part.');
  const identification = child(root, 'identification');
  const work = textOf(child(root, 'work'), 'work-title');
  const movement = textOf(root, 'movement-title');
  const credits = [
    ...children(identification, 'creator').map((c) => `${attribute(c, 'type') ?? 'by'}: ${c.text}`),
    ...children(identification, 'rights').map((r) => `rights: ${r.text}`),
  ].map(oneLine);
  const fields = new Map(
    children(child(identification, 'miscellaneous'), 'miscellaneous-field').map((f) => [
      attribute(f, 'name') ?? '',
      oneLine(f.text),
    ]),
  );
  return { credits, fields, parts, ...(work && { work: oneLine(work) }), ...(movement && { movement: oneLine(movement) }) };
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
  if (!found) throw new Unreadable(`The score has no part “${wanted}”. Its parts are: ${list(parts)}.`);
  if (!counted && named.length > 1)
    throw new Unreadable(`More than one part is called “${wanted}”: ${list(named)}. Name the part by its number.`);
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

function partwise(root: Element): Map<string, readonly Element[]> {
  return new Map(children(root, 'part').map((part) => [attribute(part, 'id') ?? '', children(part, 'measure')]));
}

function timewise(root: Element): Map<string, readonly Element[]> {
  const byPart = new Map<string, Element[]>();
  for (const measure of children(root, 'measure')) {
    for (const part of children(measure, 'part')) {
      const id = attribute(part, 'id') ?? '';
      const measures = byPart.get(id) ?? [];
      measures.push({ ...measure, children: part.children });
      byPart.set(id, measures);
    }
  }
  return byPart;
}

/** Instrument names as parts print them, in the languages of most editions; the order decides: a violoncello is no violin. */
const FAMILY_NAMES: readonly (readonly [Family, RegExp])[] = [
  ['cello', /cell[oie]|\bvlc\b|\bvc\b/i],
  ['viola', /\bviol[ae]\b|bratsche|\balto\b|\bvla\b|\bva\b/i],
  ['violin', /violin|violon\b|violons\b|geige|\bvln\b|\bvl\b|\bvn\b|fiddle/i],
];

function familyOf(part: Element, name: string): Family | undefined {
  const sound = textOf(child(part, 'score-instrument'), 'instrument-sound') ?? '';
  const standard = /^strings\.(violin|viola|cello)\b/.exec(sound)?.[1];
  if (standard) return standard as Family;
  const names = [name, textOf(part, 'part-abbreviation') ?? '', textOf(child(part, 'score-instrument'), 'instrument-name') ?? ''];
  for (const text of names) {
    const found = FAMILY_NAMES.find(([, pattern]) => pattern.test(text));
    if (found) return found[0];
  }
  return undefined;
}
