import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readPlayer } from '../../server/player/read-player';
import { pageCodes, readPage } from '../rules/page';
import { reading } from '../support/reading';

/** Every example of the papers and of the messages is one that the program itself accepts. Those of guide and rule pages are run by their own tests. */
const PAPERS = ['README.md', ...readdirSync('client/walkthrough').map((page) => `client/walkthrough/${page}`)];
const textOf = (path: string) => readFileSync(path, 'utf8');

const faults = (text: string) =>
  reading(text)
    .problems.filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(({ code, message }) => `${code}: ${message}`);

/** A piece of a passage that means something only with a note before it, a meter or a motif, with what it needs. */
function whole(piece: string): readonly string[] {
  if (piece.startsWith('[')) return ['D5', 'D6o', 'E7o', 'B5', 'A5', 'E6o'].map((note) => `${note} ${piece}`);
  if (piece.endsWith('_')) return [`${piece} ${piece.slice(0, -1)}`];
  if (/^rest \d/.test(piece)) return [`meter: 4/4\n${piece} |`];
  if (/^wave /.test(piece)) return [`motif wave = D5 E5\n${piece}`];
  if (/^in [A-G]|^on [A-G]/.test(piece)) return [`motif wave = D5 E5\nwave ${piece}`];
  return [piece.replace('…', 'D5 E5')];
}

function accepted(piece: string): boolean {
  return whole(piece).some((text) => faults(text).length === 0);
}

describe('examples', () => {
  it.each(PAPERS)('blocks of %s', (path) => {
    for (const [, kind = '', text = ''] of textOf(path).matchAll(/^```(\w*)\n([\s\S]*?)^```$/gm)) {
      if (kind !== '') continue;
      const isPlayer = text.startsWith('//') && text.includes('.player:');
      expect([text, isPlayer ? readPlayer(text).problems : faults(text)]).toEqual([text, []]);
    }
  });

  it.each(PAPERS)('tables of %s', (path) => {
    for (const [, cell = ''] of textOf(path).matchAll(/^\| (`.*?`) \| /gm)) {
      for (const [, piece = ''] of cell.matchAll(/`([^`]+)`/g)) {
        const text = piece.replaceAll('\\|', '|');
        expect([text, accepted(text)]).toEqual([text, true]);
      }
    }
  });

  it('hints named in running text go with their note', () => {
    for (const path of [...PAPERS, ...readdirSync('client/guide').map((page) => `client/guide/${page}`)]) {
      if (!path.endsWith('.md')) continue;
      for (const [, piece = ''] of textOf(path).matchAll(/`([A-G][#b]?\d[^`]* \[[^`\]]+\])`/g))
        expect([path, piece, faults(piece)]).toEqual([path, piece, []]);
    }
  });

  it('that messages give to write', () => {
    const given = new Set<string>();
    for (const code of pageCodes()) {
      for (const { kind, text } of readPage(code).examples) {
        if (kind !== 'reports') continue;
        for (const { message } of reading(text).problems) {
          const [, piece] =
            /: ((?:[A-G][#b]?\d|motif \w+ =|in [A-G] |on [A-G]|slur\(|slide )[^:]*?)\.(?: |$)/.exec(message) ?? [];
          if (piece !== undefined && !/ (?:is|lies|sounds) /.test(piece)) given.add(piece);
        }
      }
    }
    expect(given.size).toBeGreaterThanOrEqual(5);
    expect([...given].filter((piece) => !accepted(piece))).toEqual([]);
  });
});

describe('links', () => {
  it.each(['README.md', 'DEVELOPERS.md', 'CONTRIBUTING.md', 'SECURITY.md', ...PAPERS.slice(1)])(
    'of %s lead somewhere',
    (path) => {
      for (const [, to = '', anchor] of textOf(path).matchAll(/\]\((?!\w+:)([^)#\s]*)(?:#([^)]+))?\)/g)) {
        const target = to === '' ? path : join(dirname(path), to);
        expect([to, existsSync(target)]).toEqual([to, true]);
        if (anchor === undefined) continue;
        const anchors = [...textOf(target).matchAll(/^#+ (.+)$/gm)].map(([, title = '']) =>
          title
            .toLowerCase()
            .replace(/[^\w\- ]/g, '')
            .replaceAll(' ', '-'),
        );
        expect(anchors).toContain(anchor);
      }
    },
  );
});
