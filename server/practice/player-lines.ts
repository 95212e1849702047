import { printKeyName } from '../../grammar/print';
import { fingerPairs } from '../hand/hands';
import type { Passage } from '../passage/passage';
import type { Resolved } from '../passage/resolve';
import type { Overrides } from '../passage/setup';
import { setting } from './exercise-text';

/**
 * The setting lines that give exercises the instrument, hand and tuning of a passage: what it was solved with, from wherever
 * that came, so that they hold wherever the exercises are kept. A player's attempts stay in the player's own file.
 */
export function playerLines(resolved: Resolved, passage: Passage, overrides: Overrides): readonly string[] {
  const { setup, key } = passage;
  const { temperament } = setup;
  const tuning = written(resolved, passage, 'tuning');
  return [
    setting('instrument', setup.instrument.name),
    ...(tuning === undefined ? [] : [setting('tuning', tuning)]),
    ...(setup.a4 === 440 ? [] : [setting('pitch', `A4 = ${setup.a4}`)]),
    setting('hand', handText(resolved, passage, overrides)),
    ...(temperament.kind === 'equal'
      ? []
      : [setting('temperament', temperament.kind === 'just' ? `just ${printKeyName(temperament.tonic)}` : temperament.kind)]),
    ...(key ? [setting('key', `${printKeyName(key.tonic)} ${key.mode}`)] : []),
  ];
}

function handText(resolved: Resolved, passage: Passage, overrides: Overrides): string {
  const { hand, instrument, player } = passage.setup;
  if (hand.name !== 'measured' && !player) return hand.name;
  const own = overrides.hand || player ? undefined : written(resolved, passage, 'hand');
  if (own !== undefined) return own;
  // Up, so that no stretch is lost by a tenth.
  return fingerPairs(instrument.family)
    .flatMap((pair) => (hand.reaches[pair] ? [`${pair} ${Math.ceil(hand.reaches[pair].most * 10 - 1e-6) / 10}`] : []))
    .join(', ');
}

/** A setting's value as it holds for a passage, in the file's own words; undefined where the file says nothing that can be read. */
function written({ settings, tree, passages }: Resolved, passage: Passage, key: 'tuning' | 'hand'): string | undefined {
  const index = passages.indexOf(passage);
  const readable = settings.filter((one) => one.key === key && one.value !== undefined);
  const own = readable.findLast((one) => one.scope === 'passage' && one.passage === index);
  const found = own ?? readable.findLast(({ scope }) => scope === 'file');
  // The file's open strings don't go over to another instrument of a passage.
  const family = (scope: 'file' | 'passage') =>
    settings.findLast((one) => one.key === 'instrument' && one.scope === scope && (scope === 'file' || one.passage === index))
      ?.value;
  if (
    !found ||
    (key === 'tuning' && found !== own && Array.isArray(found.value) && !sameFamily(family('passage'), family('file')))
  )
    return undefined;
  return tree.text.slice(found.valueSpan.start, found.valueSpan.end);
}

function sameFamily(own: unknown, file: unknown): boolean {
  const familyOf = (choice: unknown) => (choice as { readonly family?: string } | undefined)?.family ?? 'violin';
  return own === undefined || familyOf(own) === familyOf(file);
}
