import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CLEAN, folder, passagework } from './command';

const STUDIES = `title: Harbour studies\npassage: Ebb\nmeter: 4/4\n${CLEAN}passage: Flood\n1/4 D6o A6o\n`;

describe('sheet', () => {
  it('prints all passages of a file on paper, the same bytes every time', () => {
    using place = folder({ 'studies.passage': STUDIES });
    const at = { cwd: place.path };
    const made = ['a.pdf', 'b.pdf'].map((name) => {
      expect(passagework(['sheet', 'studies.passage', '--out', name, '--paper', 'letter'], at)).toMatchObject({
        code: 0,
        out: `Sheet: ${name}\n`,
      });
      return readFileSync(join(place.path, name));
    });
    expect(made[0]!.subarray(0, 5).toString()).toBe('%PDF-');
    // US Letter, ANSI/ASME Y14.1: 8.5 by 11 inches of 72 points.
    expect(made[0]!.toString('latin1')).toMatch(/\/MediaBox \[0 0 612 792\]/);
    expect(made[0]!.equals(made[1]!)).toBe(true);
  });

  it('or as one web page, with the heading, remarks and caution', () => {
    using place = folder({ 'studies.passage': STUDIES });
    const words = ['sheet', 'studies.passage', '--out', 'a.html', '--remark', 'Slowly at first.', '--remark', 'With the tuner.'];
    expect(passagework(words, { cwd: place.path }).code).toBe(0);
    const html = readFileSync(join(place.path, 'a.html'), 'utf8');
    for (const said of ['Harbour studies', 'Ebb', 'Flood', 'Slowly at first.', 'With the tuner.', 'Pain means stop']) {
      expect(html).toContain(said);
    }
    expect(html).not.toMatch(/<script|(?:src|href)\s*=\s*["']?(?:https?:)?\/\//i);
  });

  it.each([
    ['paper nobody has', ['--paper', 'A0', '--out', 'never.pdf'], /--paper: A0 is not one of A4, Letter/],
    ['a diagram of no note', ['--diagrams', '9:9', '--out', 'never.pdf'], /--diagrams: no note begins at 9:9/],
    ['a form it has not', ['--out', 'sheet.docx'], /sheet\.docx is neither/],
  ])('refuses %s', (_, words, reason) => {
    const { code, err } = passagework(['sheet', '-', ...words], { input: CLEAN });
    expect(code).toBe(2);
    expect(err).toMatch(reason);
  });

  it('never prints over another file unasked', () => {
    using place = folder({ 'a.passage': CLEAN, 'sheet.pdf': 'mine' });
    expect(passagework(['sheet', 'a.passage'], { cwd: place.path })).toMatchObject({ code: 2 });
    expect(readFileSync(join(place.path, 'sheet.pdf'), 'utf8')).toBe('mine');
  });
});
