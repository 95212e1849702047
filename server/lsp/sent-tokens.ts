import type { SemanticTokens, SemanticTokensDelta } from 'vscode-languageserver';
import { keptEnds } from '../passage/kept-ends';

/** The last tokens sent of each document, so that a client that has them still is told only what has changed. */
export class SentTokens {
  private readonly sent = new Map<string, { readonly id: string; readonly data: number[] }>();
  private count = 0;

  /** All of them. */
  whole(uri: string, data: number[]): Required<SemanticTokens> {
    const resultId = String(++this.count);
    this.sent.set(uri, { id: resultId, data });
    return { resultId, data };
  }

  /** What makes them of those that the client names; all of them where those are not the last. */
  change(uri: string, data: number[], previous: string): SemanticTokens | SemanticTokensDelta {
    const last = this.sent.get(uri);
    const { resultId } = this.whole(uri, data);
    if (last?.id !== previous) return { resultId, data };
    const edit = difference(last.data, data);
    return { resultId, edits: edit ? [edit] : [] };
  }

  closed(uri: string): void {
    this.sent.delete(uri);
  }
}

/** The one stretch of numbers outside of which both are alike; undefined where all is. */
function difference(old: readonly number[], now: readonly number[]): SemanticTokensDelta['edits'][number] | undefined {
  const { head, tail } = keptEnds(now.length, old.length, (is, was) => now[is] === old[was]);
  if (head === old.length && head === now.length) return undefined;
  return { start: head, deleteCount: old.length - head - tail, data: now.slice(head, now.length - tail) };
}
