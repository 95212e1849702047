import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import type { Passage } from '../../server/passage/passage';
import { type Resolved, resolve } from '../../server/passage/resolve';
import { FILE, LINE } from './files';

/** Everything that a resolution says, as plain data to compare; specs and setups by identity through their keys. */
function said({ passages, problems, settings, motifs, title }: Resolved): unknown {
  return plain({
    passages: passages.map((passage) => ({
      ...passage,
      setup: passage.setup.key,
      events: passage.events.map((event) => ({ ...event, spec: event.spec.key })),
    })),
    problems,
    settings,
    title,
    motifs: [...motifs.motifs].map(({ name, line, expansion }) => ({
      name,
      line,
      atoms: expansion.atoms.length,
      total: expansion.total,
    })),
  });
}

function plain(value: unknown): unknown {
  if (value instanceof Fraction) return value.toFraction();
  if (Array.isArray(value)) return value.map(plain);
  if (value && typeof value === 'object')
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plain(inner)]));
  return value;
}

const LINE_EDIT = fc.record({ at: fc.nat(), remove: fc.nat({ max: 2 }), insert: fc.array(LINE, { maxLength: 2 }) });
const TYPING = fc.record({
  at: fc.nat(),
  remove: fc.nat({ max: 3 }),
  insert: fc.constantFrom('', ' ', 'D', '5', '\n', ' D6o', '_', '|', ' 1/4 ', ':', 'passage: x\n'),
});
const EDIT = fc.oneof(
  LINE_EDIT.map((edit) => ({ lines: true, ...edit })),
  TYPING.map((edit) => ({ lines: false, ...edit })),
);
type Edit = typeof EDIT extends fc.Arbitrary<infer T> ? T : never;

function after(text: string, edit: Edit): string {
  if (typeof edit.insert === 'string') {
    const at = edit.at % (text.length + 1);
    return text.slice(0, at) + edit.insert + text.slice(at + edit.remove);
  }
  const lines = text.split('\n');
  lines.splice(edit.at % (lines.length + 1), edit.remove, ...edit.insert);
  return lines.join('\n');
}

describe('after any edits', () => {
  it('the result is that of reading from scratch', () => {
    fc.assert(
      fc.property(FILE, fc.array(EDIT, { minLength: 1, maxLength: 6 }), (start, edits) => {
        let text = start;
        let tree = parse(text);
        let resolved = resolve(tree);
        for (const edit of edits) {
          text = after(text, edit);
          tree = parse(text, tree);
          resolved = resolve(tree, resolved);
          expect(said(resolved)).toEqual(said(resolve(parse(text))));
        }
      }),
      { seed: 20_261, numRuns: 120 },
    );
  });

  it('every event, bar and problem is sound', () => {
    fc.assert(
      fc.property(FILE, (text) => {
        const { passages, problems, settings } = resolve(parse(text));
        for (const { span, fixes, related = [] } of problems) {
          for (const place of [
            span,
            ...fixes.flatMap(({ edits }) => edits.map((edit) => edit.span)),
            ...related.map((other) => other.span),
          ]) {
            expect(place.start).toBeGreaterThanOrEqual(0);
            expect(place.end).toBeGreaterThanOrEqual(place.start);
            expect(place.end).toBeLessThanOrEqual(text.length);
          }
        }
        for (const { keySpan, key } of settings) expect(text.slice(keySpan.start, keySpan.end)).toBe(key);
        for (const passage of passages) sound(passage, text.split('\n'));
      }),
      { seed: 20_262, numRuns: 200 },
    );
  });
});

function sound({ events, bars }: Passage, lines: readonly string[]): void {
  let next = 0;
  for (const { firstEvent, endEvent, length } of bars) {
    expect(firstEvent).toBe(next);
    expect(endEvent).toBeGreaterThanOrEqual(firstEvent);
    expect(length.compare(0)).toBeGreaterThan(0);
    next = endEvent;
  }
  expect(next).toBe(events.length);
  bars.forEach(({ number, firstEvent, endEvent }, index) => {
    expect(number).toBe((bars[0]?.number ?? 1) + index);
    for (const event of events.slice(firstEvent, endEvent)) {
      expect(event.bar).toBe(number);
      expect(event.beat.compare(1)).toBeGreaterThanOrEqual(0);
      expect(event.spec.notes).toHaveLength(event.source.notes.length);
      expect(event.source.span.end).toBeLessThanOrEqual(lines[event.source.line]?.length ?? -1);
      expect(event.spec.seconds + event.spec.rest).toBeGreaterThan(0);
    }
  });
  events.forEach(({ spec }, index) => {
    for (const [there, here] of spec.held) {
      expect(events[index - 1]?.spec.notes[there]?.asked).toEqual(spec.notes[here]?.asked);
      expect(events[index - 1]?.spec.slurred).toBe(true);
    }
  });
}

/** `count` notes, eight to a bar and a line. */
function long(count: number): string {
  const names = ['D5', 'E5', 'F#5', 'A5o', 'B5', 'D6o', 'E5<>A5', 'G5'];
  const bars = Array.from({ length: count / 8 }, (_, bar) => names.map((_, note) => names[(note * 3 + bar * 5) % 8]).join(' '));
  return ['meter: 4/4', ...bars.map((notes) => `${notes} |`)].join('\n');
}

describe('an edit in a long file', () => {
  const text = long(10_000);
  const tree = parse(text);
  const resolved = resolve(tree);

  function change(find: string, put: string): Resolved {
    const at = text.indexOf(find, text.length / 2);
    return resolve(parse(text.slice(0, at) + put + text.slice(at + find.length), tree), resolved);
  }

  it('leaves the events of all other lines the same objects', () => {
    const edited = change('D5', 'C5');
    const [before, now] = [resolved.passages[0], edited.passages[0]];
    const changed = now?.events.filter((event, index) => event !== before?.events[index]) ?? [];
    expect(new Set(changed.map(({ source }) => source.line)).size).toBe(1);
    expect(changed).toHaveLength(8);
  });

  it('leaves the demands the same where lines move', () => {
    const edited = change('\n', '\nC5 C5 C5 C5 C5 C5 C5 C5 |\n');
    const [before, now] = [resolved.passages[0], edited.passages[0]];
    const at = now?.events.findIndex((event, index) => event.spec !== before?.events[index]?.spec) ?? -1;
    expect(now?.events.slice(at + 8).every(({ spec }, index) => spec === before?.events[at + index]?.spec)).toBe(true);
    expect(now?.bars.at(-1)?.number).toBe((before?.bars.at(-1)?.number ?? 0) + 1);
  });

  it('gives back the whole passage where the edit is none', () => {
    expect(resolve(parse(`${text} `, tree), resolved).passages[0]?.events).toEqual(resolved.passages[0]?.events);
    expect(resolve(parse(text.replace('meter: 4/4', 'meter: 4/4 // fourfold'), tree), resolved).passages[0]).toBe(
      resolved.passages[0],
    );
  });
});
