import type { Places } from '../../client/preview/nearest-note';

interface Event {
  readonly written: string;
  readonly range: Places['passages'][number]['events'][number]['range'];
}

/** The places of a text's pitches, one event each, by passage. */
export function scenePlaces(text: string): { readonly passages: readonly { readonly events: readonly Event[] }[] } {
  const passages: { events: Event[] }[] = [];
  text.split('\n').forEach((line, number) => {
    if (line.startsWith('passage:')) passages.push({ events: [] });
    else
      for (const match of line.matchAll(/(?<=^|\s)[A-G][#b]?\d/g)) {
        const start = { line: number, character: match.index };
        const end = { line: number, character: match.index + match[0].length };
        passages.at(-1)?.events.push({ written: match[0], range: { start, end } });
      }
  });
  return { passages };
}
