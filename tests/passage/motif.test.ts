import { describe, expect, it } from 'vitest';
import { parse } from '../../grammar/parse';
import { FILE_ROOM, MOTIF_ROOM } from '../../server/passage/flatten';
import { resolve } from '../../server/passage/resolve';
import { eventsOf, fixed, notesOf, places, problemsOf, read } from './reading';

function played(text: string): string {
  return eventsOf(text).map(notesOf).join(' ');
}

function times(text: string): string {
  return eventsOf(text)
    .map(({ duration }) => duration.toFraction())
    .join(' ');
}

const WAVE = 'motif wave = 1/16 D5 E5 F#5 A5\n';

describe('what a use of a motif sounds', () => {
  it.each([
    ['wave', 'D5 E5 F#5 A5'],
    ['wave up M2', 'E5 F#5 G#5 B5'],
    ['wave down P4', 'A4 B4 C#5 E5'],
    ['wave up P8', 'D6 E6 F#6 A6'],
    ['wave on E5', 'E5 F#5 G#5 B5'],
    ['wave on Bb3', 'Bb3 C4 D4 F4'],
    ['wave in D major up 2', 'F#5 G5 A5 C#6'],
    ['wave in D major down 1', 'C#5 D5 E5 G5'],
    // F# is foreign to F major: it stays a semitone above the note of its letter.
    ['wave in F major up 1', 'E5 F5 G#5 Bb5'],
    ['wave backwards', 'A5 F#5 E5 D5'],
    ['wave up M2 backwards', 'B5 G#5 F#5 E5'],
    ['wave backwards on D5', 'D5 B4 A4 G4'],
    ['wave on D5 backwards', 'A5 F#5 E5 D5'],
    ['wave up M2 down M2', 'D5 E5 F#5 A5'],
  ])('%s', (use, expected) => {
    expect(played(`${WAVE}${use}`)).toBe(expected);
  });

  it('keeps the shape of the hand in an artificial harmonic, and what is expected of it', () => {
    expect(played('motif gull = E5<>A5 = E7 F#5<>B5\ngull in D major up 1')).toBe('F#5<>B5 G5<>C6');
    expect(problemsOf('motif gull = E5<>A5 = E7\ngull up M2').found).toEqual([]);
  });

  it('keeps circles, hints, strokes and slides', () => {
    const [first, second] = eventsOf('motif gull = slur(D6o [III] slide E6o)\ngull up P5');
    expect(first?.spec.notes[0]).toMatchObject({ harmonic: 'must', pins: { string: 3 } });
    expect([first?.spec.slurred, second?.spec.slurred, second?.spec.slide]).toEqual([true, false, true]);
  });

  it('turns strokes, ties and repeats round with the notes', () => {
    const events = eventsOf('motif gull = down(D5 E5_ E5) A5\ngull backwards');
    expect(events.map(notesOf)).toEqual(['A5', 'E5', 'E5', 'D5']);
    expect(events.map(({ bow }) => bow)).toEqual([undefined, 'down', undefined, undefined]);
    expect(events[2]?.spec.held).toEqual([[0, 0]]);
    expect(read('motif gull = |: D5 E5 :|\ngull backwards').passages[0]?.bars).toMatchObject([{ open: '|:', close: ':|' }]);
  });

  it('is found in a motif, before and after its definition', () => {
    expect(played('tide up M2\nmotif tide = wave A5 wave backwards\nmotif wave = D5 E5')).toBe('E5 F#5 B5 F#5 E5');
  });

  it('gives every use strokes of its own', () => {
    expect(eventsOf('motif gull = slur(D5 E5)\ngull gull').map(({ spec }) => spec.slurred)).toEqual([true, false, true, false]);
    expect(eventsOf('motif gull = D5 E5\nslur(gull gull)').map(({ spec }) => spec.slurred)).toEqual([true, true, true, false]);
  });
});

describe('durations and dynamics of a motif', () => {
  it('hold inside it only', () => {
    expect(times(`${WAVE}1/4 D5 wave E5`)).toBe('1/4 1/16 1/16 1/16 1/16 1/4');
    expect(eventsOf('motif gull = ff D5\np C5 gull E5').map(({ spec }) => spec.dynamic)).toEqual(['p', 'ff', 'p']);
  });

  it('are those of the place of use where it has none', () => {
    expect(times('motif gull = D5 E5 1/4 F5\n1/16 gull A5')).toBe('1/16 1/16 1/4 1/16');
    expect(times('motif tide = 1/2 gull D5\nmotif gull = C5 1/4 D5\n1/8 tide E5')).toBe('1/2 1/4 1/2 1/8');
  });

  it('stay with their notes when it is played backwards', () => {
    expect(times('motif gull = 1/4 D5 1/16 E5 F5\ngull backwards')).toBe('1/16 1/16 1/4');
  });
});

describe('where its notes are found in the text', () => {
  it('the use is their place, the definition beside it', () => {
    const text = `1/8 C5\n${WAVE}D5 wave up M2`;
    const event = read(text).passages[0]?.events[2];
    expect(event?.source).toMatchObject({
      line: 2,
      span: { start: 3, end: 13 },
      definition: { line: 1, span: { start: 18, end: 20 } },
    });
  });

  it('an inner motif is the place of its own notes', () => {
    const events = eventsOf('motif tide = wave C5\nmotif wave = D5\ntide');
    expect(events.map(({ source }) => source.definition?.line)).toEqual([1, 0]);
  });
});

describe('problems of motifs', () => {
  it.each([
    ['a name that is not there', `${WAVE}^wav^ wave`, ['unknown-motif'], `${WAVE}wave wave`],
    ['itself inside', 'motif wave = D5 ^wave^\nwave', ['motif-cycle'], 'motif wave = D5 \nwave'],
    ['a circle of three', 'motif ebb = D5 tide\nmotif tide = swell\nmotif swell = E5 ^ebb^\nebb', ['motif-cycle'], undefined],
    ['a name twice', `${WAVE}motif ^wave^ = C5\nwave`, ['duplicate-motif'], undefined],
    ['never used', 'motif ^wave^ = C5\nD5', ['unused-motif'], undefined],
    ['a wrong note inside, told once', 'motif wave = ^E5<>G#6^ D5\nwave wave up M2', ['unknown-touch'], undefined],
    ['a tie out of the end', 'motif wave = D5 E5_\n^wave^ D5', ['tie-broken'], undefined],
    ['a note that only the change makes wrong', 'motif wave = <>A3 D5\n^wave down m2^', ['unknown-touch'], undefined],
  ])('%s', (_, fixture, codes, mended) => {
    const { found, expected, text } = problemsOf(fixture);
    expect(found.map(({ code }) => code)).toEqual(codes);
    expect(places(found)).toEqual(expected);
    if (mended) expect(fixed(text, found[0])).toBe(mended);
  });

  it('a cycle is named', () => {
    const { found } = problemsOf('motif ebb = D5 tide\nmotif tide = swell\nmotif swell = E5 ebb\nebb');
    expect(found[0]?.message).toContain('ebb → tide → swell → ebb');
  });

  it('the wrong note points to its use, and a wrong use to its note', () => {
    const inside = problemsOf('motif wave = E5<>G#6 D5\nD5 ^wave^');
    expect(places(inside.found.flatMap(({ related }) => related ?? []).map((place) => ({ ...place }) as never))).toEqual(
      inside.expected,
    );
    const outside = problemsOf('motif wave = ^<>A3^ D5\nwave down m2');
    expect(outside.found[0]?.related?.map(({ span }) => `${span.start}-${span.end}`)).toEqual(outside.expected);
  });
});

describe('motifs without end', () => {
  const doubling = (levels: number) =>
    Array.from(
      { length: levels },
      (_, level) => `motif m${level} = ${level === 0 ? 'D5 E5' : `m${level - 1} m${level - 1}`}`,
    ).join('\n');

  it('says how much there would be and how much is read', () => {
    const resolved = resolve(parse(`${doubling(14)}\nm13`));
    expect(resolved.passages[0]?.events).toHaveLength(MOTIF_ROOM);
    const problem = resolved.problems.find(({ code }) => code === 'motif-too-long');
    expect(problem?.message).toContain(`${MOTIF_ROOM}`);
    expect(problem?.message).toContain('16384');
  });

  it('a thousand doublings and a chain of ten thousand come to an end', () => {
    expect(resolve(parse(`${doubling(1000)}\nm999`)).problems.map(({ code }) => code)).toContain('motif-too-long');
    const chain = Array.from(
      { length: 10_000 },
      (_, index) => `motif n${index} = ${index === 9999 ? 'D5' : `n${index + 1}`}`,
    ).join('\n');
    expect(resolve(parse(`${chain}\nn0`)).passages[0]?.events).toHaveLength(1);
  });

  it('a file full of long motifs stops at its bound', () => {
    const lines = Array.from({ length: 16 }, () => 'm13').join('\n');
    const resolved = resolve(parse(`${doubling(14)}\n${lines}\nC5`));
    const count = resolved.passages[0]?.events.length ?? 0;
    expect(count).toBeGreaterThan(FILE_ROOM);
    expect(count).toBeLessThanOrEqual(FILE_ROOM + MOTIF_ROOM + 1);
  });
});

describe('words that players write elsewhere', () => {
  it.each([
    ['r', 'rest'],
    ['quarter', '1/4'],
    ['glissando', 'slide'],
    ['decresc', 'diminuendo'],
    ['pizzicato', 'pizz'],
    ['Eighth', '1/8'],
  ])('%s is offered as %s', (word, meant) => {
    const [problem] = resolve(parse(`D5 ${word} E5`)).problems;
    expect(problem?.code).toBe('unknown-motif');
    expect(problem?.message).toContain(`If you mean ${meant}, write that`);
    expect(problem?.fixes[0]?.edits[0]?.text).toBe(meant);
  });
});
