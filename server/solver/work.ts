import { type Lattice, type Remaining, remainingSteps } from './lattice';
import type { Tables } from './tables';

/** What the solver keeps of a solved passage. The backward pass is made when first asked for, from an earlier one where there is one. */
export class Work {
  private after: Remaining | undefined;
  private earlier: Work | undefined;

  constructor(
    readonly lattice: Lattice,
    /** The state of every event on the best path, -1 in a gap. */
    readonly path: Int32Array,
    readonly tables: Tables,
    earlier: Work | undefined,
  ) {
    this.earlier = earlier;
  }

  /** Least cost from each state of each event to the end of its run (see lattice.ts). */
  get remaining(): Remaining {
    const steps = this.prepare();
    while (!this.after) steps.next();
    return this.after;
  }

  /** True once the backward pass has been made: other ways cost nothing to ask for. */
  get prepared(): boolean {
    return this.after !== undefined;
  }

  /** Makes the backward pass before anybody asks for it, in steps of a few milliseconds. */
  *prepare(): Generator<void, void> {
    if (this.after) return;
    const made = yield* remainingSteps(this.lattice.columns, this.tables, this.earlier?.after);
    this.after ??= made;
    this.earlier = undefined;
  }

  /** Forgets the solution this one grew out of, so that a day of edits is not a day of memory; its backward pass is kept if it was made. */
  settle(): void {
    if (this.earlier && !this.earlier.after) this.earlier = this.earlier.earlier;
    if (this.earlier) this.earlier.earlier = undefined;
  }
}
