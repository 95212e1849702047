/** Why something failed, for a sentence that says what did. */
export function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
