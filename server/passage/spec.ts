import { InternTable } from '../music/intern';
import { pitchName } from '../music/pitch';
import type { Asked, EventSpec, NoteSpec } from './passage';

const specs = new InternTable<EventSpec>();

/** The one spec of this demand: equal demands get the same object as long as any passage holds it. */
export function internSpec(demand: Omit<EventSpec, 'key'>): EventSpec {
  return specs.intern(specKey(demand), (key) => Object.freeze({ key, ...demand }));
}

function specKey({
  notes,
  seconds,
  rest,
  slurred,
  dynamic,
  slide,
  held,
  ornament,
  upper,
  plucked,
  alternates,
}: Omit<EventSpec, 'key'>): string {
  const marks = `${slurred ? 's' : ''}${slide ? 'g' : ''}${ornament ? ORNAMENT_KEYS[ornament] : ''}${upper ?? ''}${plucked ? 'z' : ''}${alternates ? 'a' : ''}`;
  const ties = held.length ? held.map(([there, here]) => `${there}>${here}`).join() : '';
  return `${notes.map(noteKey).join('+')}|${seconds}|${rest}|${dynamic}|${marks}|${ties}`;
}

const ORNAMENT_KEYS = { trill: 't', plucked: 'p' } as const;

function noteKey({ asked, harmonic, pins }: NoteSpec): string {
  const { string, finger, fingers, manner, interval, node, position, breaking, open } = pins;
  let key = `${askedKey(asked)}/${harmonic}`;
  if (string !== undefined) key += `/s${string}`;
  if (finger !== undefined) key += `/f${finger}`;
  if (fingers) key += `/f${fingers.stop}-${fingers.touch}`;
  if (manner) key += `/${manner}`;
  if (interval) key += `/i${interval}`;
  if (node) key += `/n${node.k}:${node.n}`;
  if (position !== undefined) key += `/p${position}`;
  if (breaking) key += `/b${breaking}`;
  if (open === false) key += '/x';
  return key;
}

function askedKey(asked: Asked): string {
  if (asked.kind === 'sounding') return pitchName(asked.pitch);
  if (asked.kind === 'artificial') return `${pitchName(asked.stop)}<>${pitchName(asked.touch)}`;
  return `<>${pitchName(asked.touch)}${asked.sounding ? `=${pitchName(asked.sounding)}` : ''}`;
}
