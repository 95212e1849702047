import { t } from '../../l10n/translate';
import { isMeter } from '../../music/choice';
import { KEY_NAMES } from '../../music/key-names';
import type { Meter } from '../../music/meter';
import type { Losses } from './losses';
import { oneLine } from './score';

/**
 * The value of a `key:` line; undefined where the signature is that of no major or minor key.
 *
 * @param fifths sharps, flats negative
 * @param church the name of a mode that is neither, written as the major key of its signature
 */
export function keyValue(
  fifths: number | undefined,
  mode: 'major' | 'minor',
  church: string | undefined,
  bar: string,
  losses: Losses,
): string | undefined {
  const name = fifths === undefined ? undefined : KEY_NAMES[mode][fifths + 7];
  if (name === undefined) {
    losses.leftOut(bar, t('a key signature that is no major or minor key'));
    return undefined;
  }
  if (church !== undefined)
    losses.changed(
      bar,
      t('a church mode, written as the major key of its signature'),
      t('{church} as {name} major', { church: oneLine(church), name }),
    );
  return `${name} ${mode}`;
}

/** A meter of one group of beats or of several (`2+3` over 8, or 3/4 with 3/8) as one number; `free` where that is none. */
export function meterFrom(
  groups: readonly { readonly beats: string; readonly unit: number }[],
  bar: string,
  losses: Losses,
): Meter | 'free' {
  const unit = Math.max(...groups.map((group) => group.unit));
  const count = groups.reduce(
    (sum, { beats, unit: own }) => sum + beats.split('+').reduce((s, n) => s + Number(n), 0) * (unit / own),
    0,
  );
  if (isMeter({ count, unit })) return { count, unit };
  losses.leftOut(bar, t('a meter that can’t be read'));
  return 'free';
}
