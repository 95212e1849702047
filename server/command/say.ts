import { visibleLines } from './visible';

/** One plain message on standard output. */
export function say(text: string): void {
  console.log(visibleLines(text));
}

/** A note beside the answer, on standard error: another program may be reading the answer. */
export function note(text: string): void {
  console.error(visibleLines(text));
}

/** What went wrong, on standard error. */
export function complain(text: string): void {
  note(`passagework: ${text}`);
}
