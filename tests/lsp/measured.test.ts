import { describe, expect, it } from 'vitest';
import { measured } from '../../server/lsp/player-requests';

describe('what measuring a hand asks of a player file', () => {
  it('is its instrument, its line and the reaches in it, as far as they can be', () => {
    expect(measured({ text: 'instrument: violin\nhand: 1-2 50, 1-4 102.5\n' })).toMatchObject({
      instrument: 'violin',
      hand: '1-2 50, 1-4 102.5',
      reaches: { '1-2': 50, '1-4': 102.5 },
    });
    expect(measured({ text: 'hand: large\n' })).toMatchObject({ hand: 'large', reaches: {} });
    expect(measured({ text: 'hand: 1-9 50\n' })).toMatchObject({ hand: '1-9 50', reaches: {} });
    expect(measured({ text: '' })).toMatchObject({ hand: '', reaches: {} });
  });
});
