import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SentTokens } from '../../server/lsp/sent-tokens';

const URI = 'untitled:pier.passage';

describe('tokens sent once', () => {
  it('are told as changes to the last, which give what is there now', () => {
    const numbers = fc.array(fc.nat(3), { maxLength: 12 });
    fc.assert(
      fc.property(numbers, numbers, (old, now) => {
        const sent = new SentTokens();
        const { resultId } = sent.whole(URI, old);
        const reply = sent.change(URI, now, resultId);
        if (!('edits' in reply)) throw new Error('all of them were sent');
        const made = [...old];
        for (const { start, deleteCount, data } of reply.edits) made.splice(start, deleteCount, ...(data ?? []));
        expect(made).toEqual(now);
        expect(reply.edits).toHaveLength(old.join() === now.join() ? 0 : 1);
      }),
    );
  });

  it('are sent whole to a client that holds others, or none, and forgotten with their document', () => {
    const sent = new SentTokens();
    const first = sent.whole(URI, [1, 2]);
    sent.whole(URI, [1, 3]);
    expect(sent.change(URI, [1, 4], first.resultId)).toMatchObject({ data: [1, 4] });
    const last = sent.whole(URI, [1, 5]);
    sent.closed(URI);
    expect(sent.change(URI, [1, 6], last.resultId)).toMatchObject({ data: [1, 6] });
  });
});
