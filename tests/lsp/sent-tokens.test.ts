import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SentTokens, type TokenRow, tokenNumbers } from '../../server/lsp/sent-tokens';

const URI = 'untitled:pier.passage';

describe('tokens sent once', () => {
  it('are told as changes to the last, which give what is there now', () => {
    // A line that an edit left alone is the same object; another may be made of the same numbers.
    const lines = [[0], [0], [0, 1], [0, 2, 3], [0, 2, 4]];
    const rows = fc.array(
      fc
        .record({ down: fc.nat(2), line: fc.nat(lines.length - 1) })
        .map(({ down, line }): TokenRow => ({ down, numbers: lines[line]! })),
      { maxLength: 8 },
    );
    fc.assert(
      fc.property(rows, rows, (old, now) => {
        const sent = new SentTokens();
        const { resultId, data } = sent.whole(URI, old);
        const reply = sent.change(URI, now, resultId);
        if (!('edits' in reply)) throw new Error('all of them were sent');
        const made = [...data];
        for (const { start, deleteCount, data } of reply.edits) made.splice(start, deleteCount, ...(data ?? []));
        expect(made).toEqual(tokenNumbers(now));
        expect(reply.edits).toHaveLength(data.join() === made.join() ? 0 : 1);
      }),
      { numRuns: 500 },
    );
  });

  it('are told as changes to those before the last as well, which an editor holds whose user types on', () => {
    const row = (last: number): readonly TokenRow[] => [{ down: 1, numbers: [0, last] }];
    const sent = new SentTokens();
    const first = sent.whole(URI, row(2));
    sent.change(URI, row(3), first.resultId);
    expect(sent.change(URI, row(4), first.resultId)).toMatchObject({ edits: [{ start: 1, deleteCount: 1, data: [4] }] });
  });

  it('are sent whole to a client that holds others, or none, and forgotten with their document', () => {
    const row = (last: number): readonly TokenRow[] => [{ down: 1, numbers: [0, last] }];
    const sent = new SentTokens();
    expect(sent.change(URI, row(2), '0')).toMatchObject({ data: [1, 2] });
    const first = sent.whole(URI, row(3));
    for (let more = 0; more < 20; more++) sent.whole(URI, row(3));
    expect(sent.change(URI, row(4), first.resultId)).toMatchObject({ data: [1, 4] });
    const last = sent.whole(URI, row(5));
    sent.closed(URI);
    expect(sent.change(URI, row(6), last.resultId)).toMatchObject({ data: [1, 6] });
  });
});
