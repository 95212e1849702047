/** The command could not do what was asked: a missing file, a wrong option. Exit code 2; the message says what to do. */
export class CannotRun extends Error {}

/** Exit codes, as documented. */
export const EXIT = { clean: 0, findings: 1, cannotRun: 2 } as const;
