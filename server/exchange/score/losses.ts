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

/** One line for the terminal or a list: `bar 3: left out: a trill`. */
export function lossText({ bar, kind, what, which }: Loss): string {
  return `${bar === '' ? 'whole score' : `bar ${bar}`}: ${kind}: ${what}${which === undefined ? '' : `: ${which}`}`;
}

/** Bars named in a group's line before the rest are only counted. */
const MOST_BARS = 6;

/** One line for a whole kind: `left out, 3 times: a trill (bars 1, 4, 9)`. */
export function groupText({ kind, notes, what, places }: LossGroup): string {
  const bars = [...new Set(places.map((p) => p.bar))].filter((bar) => bar !== '');
  const named = bars.slice(0, MOST_BARS).join(', ');
  const more = bars.length > MOST_BARS ? ` and ${bars.length - MOST_BARS} more` : '';
  const where = bars.length === 0 ? '' : ` (${bars.length === 1 ? 'bar' : 'bars'} ${named}${more})`;
  const which = places.length === 1 && places[0]?.which !== undefined ? `: ${places[0].which}` : '';
  const times = places.length > 1 ? `, ${places.length} times` : '';
  return `${notes ? 'notes ' : ''}${kind}${times}: ${what}${which}${where}`;
}
