/** What each habit costs, nats. */
export const LEARNED: Readonly<Record<string, number>> = {};
