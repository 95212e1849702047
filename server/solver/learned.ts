/** What each habit costs, nats. */
export const LEARNED: Readonly<Record<string, readonly [cost: number, spread: number]>> = {};
