import { t } from '../l10n/translate';

/**
 * A file that can't be read. The message says what is wrong, why, and what to do; it is made to be
 * shown to the person who chose the file.
 */
export class Unreadable extends Error {
  override readonly name = 'Unreadable';

  constructor(
    message: string,
    /** Counted from 1, where the file's own lines mean something to its reader. */
    readonly line?: number,
    readonly column?: number,
  ) {
    super(placed(message, line, column));
  }
}

function placed(message: string, line?: number, column?: number): string {
  if (line === undefined) return message;
  return column === undefined
    ? t('line {line}: {message}', { line, message })
    : t('line {line}, column {column}: {message}', { line, column, message });
}
