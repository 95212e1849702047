/** Thrown inside work whose result nobody waits for any more. */
export class Cancelled extends Error {
  constructor() {
    super('The text has changed; this result is no longer wanted.');
    this.name = 'Cancelled';
  }
}

/** What long work needs of the machine it runs on. */
export interface Runtime {
  /** Milliseconds, from any start. */
  now(): number;
  /** Lets waiting messages be handled, then goes on. */
  pause(): Promise<void>;
}

/** How long work may run before it gives way, ms. */
const STRETCH = 2;

/** Call between steps of long work: gives way when the work has run for long, and throws `Cancelled` when it is not wanted any more. */
export type Pace = () => Promise<void>;

/** Turns of the event loop that a message takes from its arrival to its answer's leaving; none of them costs anything while there is none. */
const TURNS = 6;

/** Lets whoever waits be served: between two turns of a message long work would have its stretch again. */
export async function giveWay(runtime: Runtime): Promise<void> {
  for (let turn = 0; turn < TURNS; turn++) await runtime.pause();
}

export function createPace(runtime: Runtime, wanted: () => boolean): Pace {
  let since = runtime.now();
  return async () => {
    if (runtime.now() - since >= STRETCH) {
      await giveWay(runtime);
      since = runtime.now();
    }
    if (!wanted()) throw new Cancelled();
  };
}
