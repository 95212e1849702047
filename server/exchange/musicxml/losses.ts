/** Something of a score that a passage can't say, or says in another way. */
export interface Loss {
  /** The measure's printed number; empty for the score as a whole. */
  readonly measure: string;
  /** `left out`: gone. `changed`: there, but written in another way. */
  readonly kind: 'left out' | 'changed';
  /** In a player's words. */
  readonly what: string;
}

/** Collects losses in the order of the music, each once a measure. */
export class Losses {
  readonly #found = new Map<string, Loss>();

  leftOut(measure: string, what: string): void {
    this.#add({ measure, kind: 'left out', what });
  }

  changed(measure: string, what: string): void {
    this.#add({ measure, kind: 'changed', what });
  }

  /** In the order of `measures`, those of the whole score first. */
  list(measures: readonly string[]): readonly Loss[] {
    const order = new Map(measures.map((label, i) => [label, i]));
    return [...this.#found.values()].sort((a, b) => (order.get(a.measure) ?? -1) - (order.get(b.measure) ?? -1));
  }

  #add(loss: Loss): void {
    const key = `${loss.measure}\n${loss.kind}\n${loss.what}`;
    if (!this.#found.has(key)) this.#found.set(key, loss);
  }
}

/** One line for the terminal or a list: `measure 3: left out: a trill`. */
export function lossText(loss: Loss): string {
  return `${loss.measure === '' ? 'whole score' : `measure ${loss.measure}`}: ${loss.kind}: ${loss.what}`;
}
