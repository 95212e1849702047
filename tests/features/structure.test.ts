import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { highlights } from '../../server/features/highlight';
import { lenses } from '../../server/features/lens';
import { ruleLinks } from '../../server/features/links';
import { definitionOf, motifAt, motifNames, renameMotif } from '../../server/features/motifs';
import { folds, outline } from '../../server/features/outline';
import { selectionSteps } from '../../server/features/selection';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { caret, edited } from '../support/caret';
import { reading } from '../support/reading';
import { tokensIn } from '../support/tokens';

const FILE = `// Two studies
// from the harbour
instrument: violin
motif wave = 1/16 D5 E5 F#5 A5

passage: Lighthouse study
tempo: 1/4 = 72
motif swell = wave backwards
1/4 D6o E6o | wave |

passage: Harbour bells
1/4 A4 | B4 |
`;

describe('outline', () => {
  it('names passages with their motifs and bars, in the order they stand', () => {
    const entries = outline(reading(FILE));
    expect(entries.map(({ name, detail, children }) => [name, detail, children.map((child) => child.name)])).toEqual([
      ['wave', 'motif', []],
      ['Lighthouse study', '2 bars', ['swell', 'bar 1', 'bar 2']],
      ['Harbour bells', '2 bars', ['bar 1', 'bar 2']],
    ]);
    const [, bar] = entries[1]!.children;
    expect([
      bar?.detail,
      FILE.slice(bar?.span.start, bar?.span.end),
      FILE.slice(bar?.selection.start, bar?.selection.end),
    ]).toEqual(['D6o E6o', 'D6o E6o', 'D6o']);
  });

  it('counts bars of rest, numbers an upbeat 0, and lists the bars of a file without a passage line', () => {
    const [passage] = outline(reading('passage: Mole\nmeter: 2/4\n1/4 A4 | 1/2 D5 | rest | E5 |'));
    expect([passage?.detail, passage?.children.map(({ name }) => name)]).toEqual(['4 bars', ['bar 0', 'bar 1', 'bar 3']]);
    expect(outline(reading('D5 | E5 |')).map(({ name }) => name)).toEqual(['bar 1', 'bar 2']);
  });

  it('keeps the name inside the span of its entry, and the entry inside its passage, also where there is no name yet', () => {
    for (const entry of outline(reading(`passage:\nD5 |\npassage: \u{1F3BB} x\n1/4 D5 (E5\nF#5) |: G5 :|`))) {
      expect(entry.name).not.toBe('');
      for (const { span, selection, children } of [entry, ...entry.children]) {
        expect(span.start <= selection.start && selection.end <= span.end).toBe(true);
        for (const child of children) expect(span.start <= child.span.start && child.span.end <= span.end).toBe(true);
      }
    }
  });

  it('folds passages and long comments', () => {
    expect(folds(parse(FILE))).toEqual([
      { first: 0, last: 1, kind: 'comment' },
      { first: 5, last: 8, kind: 'passage' },
      { first: 10, last: 11, kind: 'passage' },
    ]);
  });
});

describe('selection', () => {
  it('grows from hint to note, stroke, bar, line, passage, file', () => {
    const { text, at } = caret('title: x\n\npassage: Mole\n1/4 slur(D6o [II 1-^4] E6o) A4 | B4');
    expect(selectionSteps(parse(text), at).map(({ start, end }) => text.slice(start, end))).toEqual([
      '1-4',
      '[II 1-4]',
      'D6o [II 1-4]',
      'slur(D6o [II 1-4] E6o)',
      '1/4 slur(D6o [II 1-4] E6o) A4',
      '1/4 slur(D6o [II 1-4] E6o) A4 | B4',
      'passage: Mole\n1/4 slur(D6o [II 1-4] E6o) A4 | B4',
      text,
    ]);
  });

  it('gives nested, growing spans everywhere', () => {
    for (let at = 0; at <= FILE.length; at++) {
      const steps = selectionSteps(parse(FILE), at);
      expect(steps.length).toBeGreaterThan(0);
      steps.reduce((inner, outer) => {
        expect(outer.start <= inner.start && outer.end >= inner.end && outer.end - outer.start > inner.end - inner.start).toBe(
          true,
        );
        return outer;
      });
    }
  });
});

describe('semantic tokens', () => {
  it('tells harmonics from stopped notes, and names every part', () => {
    const text = 'tempo: 1/4 = 60 // slow\n1/4 pp D6o_ [II 1] slide E5<>A5 = E7 D5 rest |';
    const found = tokensIn(parse(text)).map(({ start, end, type, modifier }) => [
      text.slice(start, end),
      modifier ? `${type} ${modifier}` : type,
    ]);
    expect(found).toEqual([
      ['tempo', 'property'],
      ['1/4 = 60', 'string'],
      ['// slow', 'comment'],
      ['1/4', 'number'],
      ['pp', 'keyword'],
      ['D6o', 'variable static'],
      ['_', 'operator'],
      ['II', 'enumMember'],
      ['1', 'number'],
      ['slide', 'keyword'],
      ['E5<>A5', 'variable static'],
      ['= E7', 'operator'],
      ['D5', 'variable'],
      ['rest', 'keyword'],
      ['|', 'operator'],
    ]);
  });

  it('never overlaps, and keeps to the lines of a range', () => {
    const all = tokensIn(parse(`${FILE}H5 [[ D6o] = = slur(`));
    all.reduce((before, now) => {
      expect(now.start).toBeGreaterThanOrEqual(before.end);
      return now;
    });
    const from = FILE.indexOf('1/4 D6o');
    expect(tokensIn(parse(FILE), { start: from, end: from + 1 }).map(({ start, end }) => FILE.slice(start, end))).toEqual([
      '1/4',
      'D6o',
      'E6o',
      '|',
      'wave',
      '|',
    ]);
  });
});

describe('motifs', () => {
  const tree = parse(FILE);
  const use = FILE.lastIndexOf('wave') + 1;

  it('finds a motif from its use and its definition, and every place of its name', () => {
    expect(motifAt(tree, use)).toMatchObject({ name: 'wave', definition: false });
    expect(definitionOf(tree, use).map(({ span }) => FILE.slice(0, span.start).split('\n').length)).toEqual([4]);
    expect(motifNames(tree, 'wave').map(({ definition }) => definition)).toEqual([true, false, false]);
    expect(motifAt(tree, FILE.indexOf('D6o'))).toBeUndefined();
  });

  it('renames it everywhere', () => {
    const edits = renameMotif(tree, use, 'breaker');
    if ('refused' in edits) throw new Error(edits.refused);
    const renamed = edited(FILE, edits);
    expect(renamed).toBe(FILE.replaceAll('wave', 'breaker'));
    expect(reading(renamed).problems.length).toBe(reading(FILE).problems.length);
  });

  it.each(['swell', 'D5', 'two words', '', 'slur', 'up', '1st', 'mf'])('refuses “%s” as a name, and says why', (name) => {
    expect(renameMotif(tree, use, name)).toEqual({ refused: expect.stringMatching(/\. /) });
  });

  it('highlights its names, or notes of the same pitch however spelled', () => {
    expect(highlights(tree, use)).toHaveLength(3);
    const { text, at } = caret('F#5^ Gb5 F#5o G5\nF#5');
    expect(highlights(parse(text), at).map(({ span }) => text.slice(span.start, span.end))).toEqual(['F#5', 'Gb5', 'F#5']);
  });
});

describe('links', () => {
  it('leads from a check comment to the rule', () => {
    const text = 'D5 // check: lone-third off, wobble-x off\n// check file: far-shift hint\n// not lone-third';
    expect(ruleLinks(parse(text)).map(({ code, span }) => [code, text.slice(span.start, span.end)])).toEqual([
      ['lone-third', 'lone-third'],
      ['far-shift', 'far-shift'],
    ]);
  });
});

describe('code lens', () => {
  const titles = (text: string, passageLens = true) =>
    lenses(reading(text), { ...DEFAULT_SETTINGS, passageLens }).map(({ title }) => title);

  it('tells chance and hardest spot above every passage, and behind the chance what tempo is safe', () => {
    const text = 'passage: Mole head\ntempo: 1/4 = 60\n1/4 D6o E6o';
    expect(titles(text)).toEqual(['clean nearly always', 'hardest: bar 1']);
    const [clean, hardest] = lenses(reading(text), DEFAULT_SETTINGS);
    expect(clean?.tooltip).toMatch(/^(At any tempo|Up to 1\/4 = \d+) it comes out clean 8 times in 10/);
    expect(hardest?.tooltip).toMatch(/^Go to [DE]6o in bar 1\.$/);
    expect(titles('passage: Mole head\nD5', false)).toEqual([]);
  });

  it('leads to what cannot be played', () => {
    const text = 'D5 C3 E5 C3';
    const [lens] = lenses(reading(text), DEFAULT_SETTINGS);
    expect(lens?.title).toBe('2 notes cannot be played');
    expect(text.slice(lens?.reveal?.start, lens?.reveal?.end)).toBe('C3');
  });

  it('keeps a line of lenses short enough for half a small screen', () => {
    const long = `tempo: 1/4 = 80\n${'1/4 D5 E5 F#5 A6 |\n'.repeat(120)}`;
    for (const text of [
      '1/16 G3+D4+B4+G5 G7o+C8o F6 C7 | D7 G3',
      '1/4 D6o E6o',
      'tempo: 1/4 = 300\n1/32 D4 G7 D4 G7 D4 G7',
      long,
    ])
      expect(titles(text).join(' | ').length).toBeLessThanOrEqual(44);
  });

  it('is silent above a passage without notes', () => {
    expect(titles('passage: Mole head\n')).toEqual([]);
  });
});
