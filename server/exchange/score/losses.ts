import { later, t } from '../../l10n/translate';

/** Something of a score that a passage can't say, or says in another way. */
export interface Loss {
  /** The bar's printed number; empty for the score as a whole. */
  readonly bar: string;
  /** `left out`: gone. `changed`: there, but written in another way. `assumed`: the score doesn't say it, and a passage must. */
  readonly kind: 'left out' | 'changed' | 'assumed';
  /** True where other notes sound than the score has, or at another time. */
  readonly notes: boolean;
  /** In a player's words, the same for all of its kind. */
  readonly what: string;
  /** Which one of its kind. */
  readonly which?: string;
}

/** Losses of one kind, with their places. */
export interface LossGroup extends Omit<Loss, 'bar' | 'which'> {
  readonly places: readonly { readonly bar: string; readonly which?: string }[];
}

/** Collects losses in the order of the music, each once a bar. */
export class Losses {
  readonly #found = new Map<string, Loss>();

  leftOut(bar: string, what: string, which?: string): void {
    this.#add(bar, 'left out', false, what, which);
  }

  changed(bar: string, what: string, which?: string): void {
    this.#add(bar, 'changed', false, what, which);
  }

  assumed(bar: string, what: string, which?: string): void {
    this.#add(bar, 'assumed', false, what, which);
  }

  /** Notes that don't sound, or not as long as they should. */
  notesLeftOut(bar: string, what: string, which?: string): void {
    this.#add(bar, 'left out', true, what, which);
  }

  /** Notes that sound otherwise than printed, or may. */
  notesChanged(bar: string, what: string, which?: string): void {
    this.#add(bar, 'changed', true, what, which);
  }

  /** In the order of `bars`, those of the whole score first. */
  list(bars: readonly string[]): readonly Loss[] {
    const order = new Map(bars.map((label, i) => [label, i]));
    return [...this.#found.values()].sort((a, b) => (order.get(a.bar) ?? -1) - (order.get(b.bar) ?? -1));
  }

  #add(bar: string, kind: Loss['kind'], notes: boolean, what: string, which: string | undefined): void {
    const key = `${bar}\n${kind}\n${what}\n${which ?? ''}`;
    if (!this.#found.has(key)) this.#found.set(key, { bar, kind, notes, what, ...(which !== undefined && { which }) });
  }
}

/** Losses by kind: what changes notes first, then what there is most of. */
export function grouped(losses: readonly Loss[]): readonly LossGroup[] {
  const groups = new Map<string, LossGroup & { readonly places: { bar: string; which?: string }[] }>();
  for (const { bar, which, ...loss } of losses) {
    const key = `${loss.kind}\n${loss.what}`;
    const group = groups.get(key) ?? { ...loss, places: [] };
    group.places.push({ bar, ...(which !== undefined && { which }) });
    groups.set(key, group);
  }
  return [...groups.values()].sort((a, b) => Number(b.notes) - Number(a.notes) || b.places.length - a.places.length);
}

/** `left out`; of notes `notes left out`. */
const KINDS: Readonly<Record<Loss['kind'], readonly [kind: string, ofNotes: string]>> = {
  'left out': [later('left out'), later('notes left out')],
  changed: [later('changed'), later('notes changed')],
  assumed: [later('assumed'), later('notes assumed')],
};

/** One line for the terminal or a list: `bar 3: left out: a trill`. */
export function lossText({ bar, kind, what, which }: Loss): string {
  const place = bar === '' ? t('whole score') : t('bar {bar}', { bar });
  const holes = { place, kind: t(KINDS[kind][0]), what };
  return which === undefined ? t('{place}: {kind}: {what}', holes) : t('{place}: {kind}: {what}: {which}', { ...holes, which });
}

/** Bars named in a group's line before the rest are only counted. */
const MOST_BARS = 6;

/** One line for a whole kind: `left out, 3 times: a trill (bars 1, 4, 9)`. */
export function groupText({ kind, notes, what, places }: LossGroup): string {
  const [first] = places;
  const count = places.length;
  const happened = t(KINDS[kind][notes ? 1 : 0]);
  const told =
    count > 1
      ? t('{kind}, {count} times: {what}', { kind: happened, count, what })
      : first?.which === undefined
        ? t('{kind}: {what}', { kind: happened, what })
        : t('{kind}: {what}: {which}', { kind: happened, what, which: first.which });
  const bars = [...new Set(places.map((p) => p.bar))].filter((bar) => bar !== '');
  if (bars.length === 0) return told;
  const named = bars.slice(0, MOST_BARS).join(', ');
  if (bars.length === 1) return t('{told} (bar {bar})', { told, bar: named });
  return bars.length > MOST_BARS
    ? t('{told} (bars {bars} and {count} more)', { told, bars: named, count: bars.length - MOST_BARS })
    : t('{told} (bars {bars})', { told, bars: named });
}
