/**
 * A table that gives equal demands the same object. It holds its objects weakly: what no passage uses
 * any more is collected and its entry goes with it, so a day of typing leaves no trace.
 */
export class InternTable<T extends object> {
  readonly #entries = new Map<string, WeakRef<T>>();
  readonly #collected = new FinalizationRegistry<string>((key) => {
    // The key may have been made anew since; only an entry that is really empty goes.
    if (this.#entries.get(key)?.deref() === undefined) this.#entries.delete(key);
  });

  /** The one object of this key; `make` is called when there is none. */
  intern(key: string, make: (key: string) => T): T {
    const known = this.#entries.get(key)?.deref();
    if (known) return known;
    const made = make(key);
    this.#entries.set(key, new WeakRef(made));
    this.#collected.register(made, key);
    return made;
  }

  /** Entries held, collected ones not yet swept included. */
  get size(): number {
    return this.#entries.size;
  }
}
