import { parse } from '../../grammar/parse';
import { pitchName } from '../../server/music/pitch';
import type { NoteSpec, PassageEvent } from '../../server/passage/passage';
import type { PassageProblem } from '../../server/passage/problem';
import { type Resolved, resolve } from '../../server/passage/resolve';
import type { Overrides } from '../../server/passage/setup';
import { edited, marked } from '../support/caret';

/** Reads a text that is well spelled; a slip in a fixture must not pass for a finding. */
export function read(text: string, overrides?: Overrides): Resolved {
  const tree = parse(text);
  const slips = tree.lines.flatMap(({ node }) => node.problems.map(({ message }) => message));
  if (slips.length > 0) throw new Error(`The fixture is misspelled: ${slips.join(' ')}`);
  return resolve(tree, undefined, overrides);
}

/** Events of the first passage. */
export function eventsOf(text: string, overrides?: Overrides): readonly PassageEvent[] {
  return read(text, overrides).passages[0]?.events ?? [];
}

/** `E5<>A5`, `D6o`, `D6?` (may be a harmonic), `D5`; double stops with a plus. */
export function notesOf({ spec }: PassageEvent): string {
  return spec.notes.map(noteText).join('+');
}

function noteText({ asked, harmonic }: NoteSpec): string {
  if (asked.kind === 'artificial') return `${pitchName(asked.stop)}<>${pitchName(asked.touch)}`;
  if (asked.kind === 'diamond') return `<>${pitchName(asked.touch)}`;
  return `${pitchName(asked.pitch)}${{ must: 'o', may: '?', no: '' }[harmonic]}`;
}

/** Each problem of a fixture whose places stand between carets: codes in order, places as marked. */
export function problemsOf(fixture: string): {
  readonly found: readonly PassageProblem[];
  readonly expected: readonly string[];
  readonly text: string;
} {
  const { text, carets } = marked(fixture);
  const found = resolve(parse(text)).problems;
  const expected = Array.from({ length: carets.length / 2 }, (_, index) => `${carets[2 * index]}-${carets[2 * index + 1]}`);
  return { found, expected, text };
}

export function places(found: readonly PassageProblem[]): readonly string[] {
  return found.map(({ span }) => `${span.start}-${span.end}`);
}

/** The text after a problem's fix. */
export function fixed(text: string, problem: PassageProblem | undefined, fix = 0): string {
  return edited(text, problem?.fixes[fix]?.edits ?? []);
}
