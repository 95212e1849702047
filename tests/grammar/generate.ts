import fc from 'fast-check';
import { MANNERS, TOUCH_INTERVALS } from '../../grammar/hint-names';
import { BREAKINGS, DIRECTIONS, DYNAMICS, JUMPS, MARKS, STRESSES } from '../../grammar/marks';
import type { Placeless } from '../../grammar/print';
import { printLine } from '../../grammar/print';
import { SETTINGS } from '../../grammar/settings';
import type { Finger, Hint, Item, LineNode, MotifChange, NoteForm, NoteNode, PitchNode, StringNumber } from '../../grammar/tree';

/** Random pieces of well-written passages, as trees without places. */

const letter = fc.constantFrom('A', 'B', 'C', 'D', 'E', 'F', 'G' as const);
const pitch: fc.Arbitrary<Placeless<PitchNode>> = fc.record({
  letter,
  alter: fc.integer({ min: -2, max: 2 }),
  octave: fc.nat({ max: 9 }),
});
const place = fc.constant({});

const form: fc.Arbitrary<Placeless<NoteForm>> = fc.oneof(
  fc.record({ kind: fc.constant('plain' as const), pitch }),
  fc.record({ kind: fc.constant('plain' as const), pitch, circle: place }),
  fc.record({ kind: fc.constant('artificial' as const), stop: pitch, touch: pitch }),
  fc.record({ kind: fc.constant('diamond' as const), touch: pitch }),
);

const finger = fc.constantFrom<Finger[]>(1, 2, 3, 4, 'T');
const hint: fc.Arbitrary<Placeless<Hint>> = fc.oneof(
  fc.record({ kind: fc.constant('string' as const), string: fc.constantFrom<StringNumber[]>(1, 2, 3, 4) }),
  fc.record({ kind: fc.constant('finger' as const), finger: fc.constantFrom<Finger[]>(0, 1, 2, 3, 4, 'T') }),
  fc.record({ kind: fc.constant('fingers' as const), stop: finger, touch: finger }).filter(({ stop, touch }) => stop !== touch),
  fc.record({ kind: fc.constant('manner' as const), manner: fc.constantFrom(...MANNERS) }),
  fc.record({ kind: fc.constant('interval' as const), interval: fc.constantFrom(...TOUCH_INTERVALS) }),
  fc
    .record({ kind: fc.constant('node' as const), k: fc.integer({ min: 1, max: 9 }), n: fc.integer({ min: 2, max: 12 }) })
    .filter(({ k, n }) => k < n),
  fc.record({ kind: fc.constant('position' as const), position: fc.integer({ min: 1, max: 99 }) }),
  fc.record({ kind: fc.constant('breaking' as const), breaking: fc.constantFrom(...BREAKINGS) }),
);
const hints = fc.uniqueArray(hint, {
  minLength: 1,
  maxLength: 5,
  selector: ({ kind }) => (kind === 'fingers' ? 'finger' : kind),
});

const note: fc.Arbitrary<Placeless<NoteNode>> = fc.record(
  { form, expected: fc.record({ pitch }), tie: place, hints: fc.record({ hints }) },
  { requiredKeys: ['form'] },
);

const name = fc.constantFrom('wave', 'ebb-tide', 'buoy_2', 'Möwe', 'θάλασσα', 'light');
const change: fc.Arbitrary<Placeless<MotifChange>> = fc.oneof(
  fc.record({
    kind: fc.constant('interval' as const),
    direction: fc.constantFrom('up', 'down' as const),
    interval: fc.record({ text: fc.constantFrom('m2', 'M2', 'P4', 'A4', 'd5', 'P8') }),
  }),
  fc.record({ kind: fc.constant('on' as const), pitch }),
  fc.record({
    kind: fc.constant('diatonic' as const),
    direction: fc.constantFrom('up', 'down' as const),
    steps: fc.integer({ min: 1, max: 99 }),
    tonic: fc.record({ letter, alter: fc.integer({ min: -1, max: 1 }) }),
    mode: fc.constantFrom('major', 'minor' as const),
  }),
  fc.constant({ kind: 'backwards' as const }),
);

/** A fingered tremolo stands over two notes and nothing else. */
const mark = fc.record({ word: fc.constantFrom(...MARKS.map(({ word }) => word).filter((word) => word !== 'fingered-tremolo')) });

const { item } = fc.letrec<{ item: Placeless<Item>; stroke: Placeless<Item>; group: Placeless<Item> }>((tie) => ({
  group: fc
    .record(
      {
        kind: fc.constant('group' as const),
        items: fc.array(tie('item'), { minLength: 1, maxLength: 4 }),
        mark,
        hints: fc.record({ hints }),
      },
      { requiredKeys: ['kind', 'items'] },
    )
    .filter((group) => group.mark !== undefined || group.hints !== undefined) as fc.Arbitrary<Placeless<Item>>,
  stroke: fc.record(
    {
      kind: fc.constant('stroke' as const),
      stroke: fc.constantFrom('slur', 'up', 'down' as const),
      word: place,
      items: fc.array(tie('item'), { minLength: 1, maxLength: 4 }),
      hints: fc.record({ hints }),
    },
    { requiredKeys: ['kind', 'stroke', 'word', 'items'] },
  ) as fc.Arbitrary<Placeless<Item>>,
  item: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    {
      weight: 6,
      arbitrary: fc.record(
        {
          kind: fc.constant('event' as const),
          notes: fc.array(note, { minLength: 1, maxLength: 4 }),
          marks: fc.array(mark, { minLength: 1, maxLength: 3 }),
          slide: place,
        },
        { requiredKeys: ['kind', 'notes'] },
      ),
    },
    {
      weight: 2,
      arbitrary: fc
        .record({
          kind: fc.constant('duration' as const),
          numerator: fc.integer({ min: 1, max: 9999 }),
          denominator: fc.integer({ min: 1, max: 9999 }),
        })
        .filter(({ numerator, denominator }) => numerator <= 8 * denominator),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: fc.constant('dynamic' as const),
        level: fc.constantFrom(...DYNAMICS, ...STRESSES),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.oneof(
        fc.record({
          kind: fc.constant('direction' as const),
          word: fc.constantFrom(...DIRECTIONS.map(({ word }) => word), '"dolce"' as const, '"D5 | ("' as const),
        }),
        fc.record({ kind: fc.constant('jump' as const), word: fc.constantFrom(...JUMPS.map(({ word }) => word)) }),
        fc.record({
          kind: fc.constant('ending' as const),
          times: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 3 }),
        }),
      ),
    },
    {
      weight: 1,
      arbitrary: fc.record({ kind: fc.constant('bar' as const), style: fc.constantFrom('|', '||', '|:', ':|' as const) }),
    },
    { weight: 1, arbitrary: fc.constant({ kind: 'rest' as const }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant('rest' as const), bars: fc.integer({ min: 1, max: 999 }) }) },
    {
      weight: 1,
      arbitrary: fc.record({
        kind: fc.constant('motif' as const),
        name: fc.record({ text: name }),
        changes: fc.array(change, { maxLength: 3 }),
      }),
    },
    { weight: 1, arbitrary: tie('stroke') },
    { weight: 1, arbitrary: tie('group') },
  ),
}));

const words = fc
  .array(fc.constantFrom('Lamp', 'room,', 'bars', '1-4', 'slow:', '(twice)', 'http://quay.example', 'C = 5', '♯', '>'), {
    maxLength: 4,
  })
  .map((all) => all.join(' '))
  .map((text) => ({ text }));
const comment = words.map(({ text }) => ({ text: `// ${text}`.trim() }));
const problems = fc.constant([] as const);

/** A well-written line, as a node without places. Strokes don't nest deeper than the reader allows. */
export const line: fc.Arbitrary<Placeless<LineNode>> = fc
  .oneof(
    fc.record({ kind: fc.constant('blank' as const), problems, comment }, { requiredKeys: ['kind', 'problems'] }),
    fc.record(
      {
        kind: fc.constant('setting' as const),
        key: fc.constant({ text: 'title' }),
        value: words,
        problems,
        comment,
      },
      { requiredKeys: ['kind', 'key', 'value', 'problems'] },
    ),
    fc.constantFrom(...SETTINGS).map(({ key, example }) => ({
      kind: 'setting' as const,
      key: { text: key },
      value: { text: example },
      problems: [] as const,
    })),
    fc.record(
      { kind: fc.constant('passage' as const), name: words, problems, comment },
      { requiredKeys: ['kind', 'name', 'problems'] },
    ),
    fc.record(
      { kind: fc.constant('instruction' as const), text: words, problems, comment },
      { requiredKeys: ['kind', 'text', 'problems'] },
    ),
    fc.record(
      {
        kind: fc.constant('motif' as const),
        name: fc.record({ text: name }),
        items: fc.array(item, { maxLength: 5 }),
        problems,
        comment,
      },
      { requiredKeys: ['kind', 'name', 'items', 'problems'] },
    ),
    fc.record(
      { kind: fc.constant('music' as const), items: fc.array(item, { minLength: 1, maxLength: 8 }), problems, comment },
      { requiredKeys: ['kind', 'items', 'problems'] },
    ),
  )
  .map((node) => node as Placeless<LineNode>);

/** A well-written file as text, with line breaks of every kind. */
export const file: fc.Arbitrary<string> = fc
  .array(fc.tuple(line, fc.constantFrom('\n', '\n', '\r\n', '\r')), { maxLength: 12 })
  .map((lines) => lines.map(([node, end]) => printLine(node) + end).join(''));

/** Scraps that files are made of, well and badly written. */
const scrap = fc.oneof(
  { weight: 8, arbitrary: line.map(printLine) },
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      ...[
        'D5',
        'F#6o',
        'h6',
        '<>',
        '<>A4',
        'E5<>A5',
        '[',
        ']',
        '[II 1-4',
        '(',
        ')',
        'slur(',
        'up',
        'in D',
        '=',
        '+',
        '_',
        '|',
        ':',
        '//',
        '>',
      ],
      ...[
        'tempo',
        'tmpo: 3',
        'motif',
        '1/8',
        '1/0',
        '𝄪',
        '\uD834',
        '\uFEFF',
        '\t',
        '  ',
        '\u2028',
        '\r',
        '\n',
        '\r\n',
        'wave',
        '@',
      ],
    ),
  },
  { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 8 }) },
);

/** Any text at all, mostly near the language. */
export const anyText: fc.Arbitrary<string> = fc
  .array(fc.tuple(scrap, fc.constantFrom('', ' ', ' ', '\n', '\r\n', '\r')), { maxLength: 25 })
  .map((scraps) => scraps.map(([text, end]) => text + end).join(''));
