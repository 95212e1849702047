import fc from 'fast-check';
import { expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import type { Item, LineNode, Tree } from '../../grammar/tree';
import { resolve } from '../../server/passage/resolve';

const SPAN = { start: 0, end: 1 };
const number = fc.oneof(
  fc.integer({ min: -3, max: 12 }),
  fc.constantFrom(0, 1e21, -1e21, Number.NaN, Number.POSITIVE_INFINITY, 0.5, 999_999_999),
);
const pitch = fc.record({
  letter: fc.constantFrom('A', 'C', 'F', 'B' as const),
  alter: fc.integer({ min: -2, max: 2 }),
  octave: fc.integer({ min: -2, max: 12 }),
});
const place = <T extends object>(value: fc.Arbitrary<T>) => value.map((fields) => ({ ...SPAN, ...fields }));
const pitchNode = place(pitch);
const finger = fc.constantFrom(0, 1, 2, 3, 4, 'T' as const);
const hint = place(
  fc.oneof(
    fc.record({ kind: fc.constant('string' as const), string: fc.constantFrom(1, 2, 3, 4) }),
    fc.record({ kind: fc.constant('finger' as const), finger }),
    fc.record({ kind: fc.constant('fingers' as const), stop: finger, touch: finger }),
    fc.record({ kind: fc.constant('manner' as const), manner: fc.constantFrom('open', 'stopped', 'natural', 'artificial') }),
    fc.record({
      kind: fc.constant('interval' as const),
      interval: fc.constantFrom('minor-third', 'third', 'fourth', 'fifth', 'sixth', 'octave'),
    }),
    fc.record({ kind: fc.constant('node' as const), k: number, n: number }),
    fc.record({ kind: fc.constant('position' as const), position: number }),
  ),
);
const hints = fc.array(hint, { maxLength: 4 }).map((own) => ({ ...SPAN, hints: own }));
const form = place(
  fc.oneof(
    fc.record({ kind: fc.constant('plain'), pitch: pitchNode, circle: fc.constant(SPAN) }),
    fc.record({ kind: fc.constant('plain'), pitch: pitchNode }),
    fc.record({ kind: fc.constant('artificial'), stop: pitchNode, touch: pitchNode }),
    fc.record({ kind: fc.constant('diamond'), touch: pitchNode }),
  ),
);
const note = place(
  fc.record(
    {
      form,
      tie: fc.constant(SPAN),
      expected: pitchNode.map((expected) => ({ ...SPAN, pitch: expected })),
      hints,
    },
    { requiredKeys: ['form'] },
  ),
);
const name = fc
  .constantFrom('wave', 'tide', 'gull', '', 'toString', '__proto__', 'constructor')
  .map((text) => ({ ...SPAN, text }));
const change = place(
  fc.oneof(
    fc.record({
      kind: fc.constant('interval'),
      direction: fc.constantFrom('up', 'down'),
      interval: fc.constantFrom('M2', 'P5', 'zz', '').map((text) => ({ ...SPAN, text })),
    }),
    fc.record({ kind: fc.constant('on'), pitch: pitchNode }),
    fc.record({
      kind: fc.constant('diatonic'),
      direction: fc.constantFrom('up', 'down'),
      steps: fc.integer({ min: -9, max: 99 }),
      tonic: pitchNode,
      mode: fc.constantFrom('major', 'minor'),
    }),
    fc.record({ kind: fc.constant('backwards') }),
  ),
);
const { item } = fc.letrec<{ item: object }>((tie) => ({
  item: fc.oneof(
    { maxDepth: 4 },
    place(
      fc.record({ kind: fc.constant('event'), notes: fc.array(note, { maxLength: 3 }), slide: fc.constantFrom(undefined, SPAN) }),
    ),
    place(fc.record({ kind: fc.constant('duration'), numerator: number, denominator: number })),
    place(fc.record({ kind: fc.constant('dynamic'), level: fc.constantFrom('pp', 'ff') })),
    place(fc.record({ kind: fc.constant('bar'), style: fc.constantFrom('|', '||', '|:', ':|') })),
    place(fc.record({ kind: fc.constant('rest') })),
    place(fc.record({ kind: fc.constant('motif'), name, changes: fc.array(change, { maxLength: 3 }) })),
    place(
      fc.record({
        kind: fc.constant('stroke'),
        stroke: fc.constantFrom('slur', 'up', 'down'),
        word: fc.constant(SPAN),
        items: fc.array(tie('item'), { maxLength: 4 }),
        hints: fc.option(hints, { nil: undefined }),
      }),
    ),
    place(fc.record({ kind: fc.constant('group'), items: fc.array(tie('item'), { maxLength: 4 }), hints })),
  ),
}));
const items = fc.array(item, { maxLength: 8 }) as unknown as fc.Arbitrary<Item[]>;
const text = fc
  .oneof(
    fc.string({ maxLength: 12 }),
    fc.constantFrom('violin', 'cello', '4/4', '1/4 = 60', 'A4 = 442', 'small', '1-4 98', 'D major', 'G3 D4 A4 E5', 'all'),
  )
  .map((value) => ({ ...SPAN, text: value }));
const key = fc
  .constantFrom(
    'title',
    'instrument',
    'tuning',
    'pitch',
    'hand',
    'tempo',
    'meter',
    'key',
    'temperament',
    'harmonics',
    'keep',
    'hnad',
    'toString',
    '__proto__',
  )
  .map((value) => ({ ...SPAN, text: value }));
const line = fc.oneof(
  items.map((own) => ({ kind: 'music', items: own, problems: [] })),
  fc.tuple(name, items).map(([own, inside]) => ({ kind: 'motif', name: own, items: inside, problems: [] })),
  fc.tuple(key, text).map(([own, value]) => ({ kind: 'setting', key: own, value, problems: [] })),
  text.map((own) => ({ kind: 'passage', name: own, problems: [] })),
  text.map((own) => ({ kind: 'instruction', text: own, problems: [] })),
) as unknown as fc.Arbitrary<LineNode>;

function treeOf(nodes: readonly LineNode[]): Tree {
  return {
    text: nodes.map(() => 'x\n').join(''),
    lines: nodes.map((node, index) => ({ start: 2 * index, end: 2 * index + 1, node })),
  };
}

it('any tree at all gives passages, never an exception', () => {
  fc.assert(
    fc.property(fc.array(line, { maxLength: 10 }), fc.array(line, { maxLength: 10 }), (first, second) => {
      const before = resolve(treeOf(first));
      const after = resolve(treeOf([...first.slice(0, 5), ...second]), before);
      for (const passage of [...before.passages, ...after.passages]) {
        for (const { spec } of passage.events) expect(Number.isFinite(spec.seconds + spec.rest)).toBe(true);
      }
    }),
    { seed: 20_263, numRuns: 300 },
  );
});

it('any text at all gives passages, never an exception', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 200 }), (any) => {
      expect(resolve(parse(any)).passages.length).toBeGreaterThanOrEqual(0);
    }),
    { seed: 20_264, numRuns: 300 },
  );
});
