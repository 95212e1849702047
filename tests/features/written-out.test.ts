import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { motifUsesOf } from '../../grammar/walk';
import { motifText } from '../../server/features/written-out';
import { resolve } from '../../server/passage/resolve';
import { FILE } from '../passage/files';
import { read } from '../passage/reading';

const WAVE = 'motif wave = 1/16 D5 E5 F#5 A5\n';

describe('a motif written out', () => {
  it.each([
    ['1/8 C5 wave E5', '1/16 D5 E5 F#5 A5', '1/16 D5 E5 F#5 A5 1/8'],
    ['1/8 C5 wave 1/4 E5', '1/16 D5 E5 F#5 A5', '1/16 D5 E5 F#5 A5'],
    ['1/16 C5 wave up M2 E5', 'E5 F#5 G#5 B5', 'E5 F#5 G#5 B5'],
    ['loud', '1/4 ff D5 slur(E5o [II] rest 1/8 F5)', '1/4 ff D5 slur(E5o [II] rest 1/8 F5) mf'],
    ['1/8 C5 pair', '1/2 fingered-tremolo(1/16 A5 C6) accent D5', '1/2 fingered-tremolo(1/16 A5 C6) accent D5 1/8'],
    ['slur(loud D5)', '1/4 ff D5 E5o [II] rest 1/8 F5', '1/4 ff D5 E5o [II] rest 1/8 F5 mf'],
  ])('%s', (line, notes, text) => {
    const file = `${WAVE}motif loud = 1/4 ff D5 slur(E5o [II] rest 1/8 F5)\nmotif pair = 1/2 fingered-tremolo(1/16 A5 C6) accent D5\n${line}`;
    const resolved = read(file);
    const node = resolved.tree.lines[3]?.node;
    const use = node?.kind === 'music' ? motifUsesOf(node.items)[0] : undefined;
    if (!use || !node) throw new Error('no use');
    expect(motifText(resolved, 3, use)).toEqual({ notes, text });
    // Written out, the line plays the same.
    const start = resolved.tree.lines[3]?.start ?? 0;
    const after = read(`${file.slice(0, start + use.start)}${text}${file.slice(start + use.end)}`);
    expect(after.passages[0]?.events.map(({ spec }) => spec.key)).toEqual(
      resolved.passages[0]?.events.map(({ spec }) => spec.key),
    );
  });

  it('is not offered in a motif where what held before has no words', () => {
    const resolved = read(`${WAVE}motif tide = wave C5\ntide`);
    const node = resolved.tree.lines[1]?.node;
    const use = node?.kind === 'motif' ? motifUsesOf(node.items)[0] : undefined;
    expect(use && motifText(resolved, 1, use)).toEqual({ notes: '1/16 D5 E5 F#5 A5' });
  });

  it('plays the same in any file', () => {
    let seen = 0;
    fc.assert(
      fc.property(FILE, (text) => {
        const resolved = resolve(parse(text));
        resolved.tree.lines.forEach(({ node, start }, line) => {
          // On a misspelled line a stray mark may take the new notes for its own.
          const uses = node.kind === 'music' && node.problems.length === 0 ? motifUsesOf(node.items) : [];
          for (const use of uses) {
            const written = motifText(resolved, line, use)?.text;
            if (written === undefined) continue;
            seen++;
            const after = resolve(parse(`${text.slice(0, start + use.start)}${written}${text.slice(start + use.end)}`));
            const keys = ({ passages }: typeof after) => passages.map(({ events }) => events.map(({ spec }) => spec.key));
            expect(keys(after)).toEqual(keys(resolved));
          }
        });
      }),
      { seed: 20_265, numRuns: 200 },
    );
    expect(seen).toBeGreaterThan(50);
  });
});
