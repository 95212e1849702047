import type { SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver';
import { keptEnds } from '../passage/kept-ends';

/** The tokens of one line as the protocol has them, five numbers for each; a line that an edit left alone has the same object. */
export interface TokenRow {
  /** Lines down from the row before it, or from the start of the text. */
  readonly down: number;
  /** As if the line were the first. */
  readonly numbers: readonly number[];
}

/** Of each document so many are remembered: a fast typist's editor asks on before it has had the last answer, or throws it away. */
const MOST_SENT = 16;

/** The last tokens sent of each document, so that a client that has some of them still is told only what has changed. */
export class SentTokens {
  private readonly sent = new Map<string, ReadonlyMap<string, readonly TokenRow[]>>();
  private count = 0;

  /** All of them. */
  whole(uri: string, rows: readonly TokenRow[]): Required<SemanticTokens> {
    return { resultId: this.keep(uri, rows), data: tokenNumbers(rows) };
  }

  /** What makes them of those that the client names; all of them where those are long gone. */
  change(uri: string, rows: readonly TokenRow[], previous: string): SemanticTokens | SemanticTokensDelta {
    const known = this.sent.get(uri)?.get(previous);
    if (!known) return this.whole(uri, rows);
    const edit = difference(known, rows);
    return { resultId: this.keep(uri, rows), edits: edit ? [edit] : [] };
  }

  closed(uri: string): void {
    this.sent.delete(uri);
  }

  private keep(uri: string, rows: readonly TokenRow[]): string {
    const id = String(++this.count);
    const latest = [...(this.sent.get(uri) ?? [])].slice(1 - MOST_SENT);
    this.sent.set(uri, new Map([...latest, [id, rows]]));
    return id;
  }
}

/** Rows as the one list that the protocol has of them. */
export function tokenNumbers(rows: readonly TokenRow[]): number[] {
  const data: number[] = [];
  for (const { down, numbers } of rows) {
    const at = data.length;
    for (const one of numbers) data.push(one);
    data[at]! += down;
  }
  return data;
}

/** The one stretch of numbers outside of which both are alike; undefined where all is. */
function difference(old: readonly TokenRow[], now: readonly TokenRow[]): SemanticTokensDelta['edits'][number] | undefined {
  // Row by row first: of a long text one line has changed.
  const rows = keptEnds(now.length, old.length, (is, was) => sameRow(now[is]!, old[was]!));
  const before = tokenNumbers(old.slice(rows.head, old.length - rows.tail));
  const after = tokenNumbers(now.slice(rows.head, now.length - rows.tail));
  const { head, tail } = keptEnds(after.length, before.length, (is, was) => after[is] === before[was]);
  if (head === before.length && head === after.length) return undefined;
  const above = now.slice(0, rows.head).reduce((sum, { numbers }) => sum + numbers.length, 0);
  return { start: above + head, deleteCount: before.length - head - tail, data: after.slice(head, after.length - tail) };
}

function sameRow(a: TokenRow, b: TokenRow): boolean {
  return a === b || (a.down === b.down && a.numbers === b.numbers);
}
