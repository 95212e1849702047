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
const STRETCH = 4;

/** Call between steps of long work: gives way when the work has run for long, and throws `Cancelled` when it is not wanted any more. */
export type Pace = () => Promise<void>;

export function createPace(runtime: Runtime, wanted: () => boolean): Pace {
  let since = runtime.now();
  return async () => {
    if (runtime.now() - since >= STRETCH) {
      await runtime.pause();
      since = runtime.now();
    }
    if (!wanted()) throw new Cancelled();
  };
}
