import { describe, expect, it } from 'vitest';
import { folder, passagework } from './command';

function told(before: string, after: string): { readonly code: number | null; readonly out: string } {
  using place = folder({ 'before.passage': before, 'after.passage': after });
  return passagework(['diff', 'before.passage', 'after.passage'], { cwd: place.path });
}

const HEAD = 'passage: Tide\nmeter: 3/4\n';

describe('diff', () => {
  it('finds the same fingering in the same music, whatever the comments say', () => {
    expect(told(`${HEAD}1/4 D5 A5 D6o |\n`, `// Reworded.\n${HEAD}1/4  D5 A5  D6o | // So is this.\n`)).toMatchObject({
      code: 0,
      out: 'The fingering is the same.\n',
    });
  });

  it('tells how one note was played and how it is now', () => {
    const { code, out } = told(`${HEAD}1/4 D5 A5 D6o [III] |\n`, `${HEAD}1/4 D5 A5 D6o [IV] |\n`);
    expect(code).toBe(1);
    expect(out).toMatch(/^Tide, bar 1, beat 3: D6 was .* on III, finger.*; now .* on IV, finger.*\.$/m);
  });

  it('keeps the rest apart from notes put in and taken out', () => {
    const { out } = told('1/4 D5 [II 3] E5 F#5 G5\n', '1/4 D5 [II 3] E5 A5 F#5\n');
    expect(out).toMatch(/A5 is new: /);
    expect(out).toMatch(/G5 is gone\./);
    expect(out).not.toMatch(/D5 (was|is new|is gone)/);
  });

  it('names passages that came and went', () => {
    const { out } = told('passage: Ebb\n1/4 D5\n', 'passage: Flood\n1/4 D5\n');
    expect(out).toContain('Ebb: taken out.');
    expect(out).toContain('Flood: new.');
  });
});
