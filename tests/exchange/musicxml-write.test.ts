import { type NoteEntry, parse as parseIndependently } from 'musicxml-io';
import { beforeAll, describe, expect, test } from 'vitest';
import { writeMusicXml } from '../../server/exchange/musicxml/write';
import { createSolver } from '../../server/solver/solve';
import { passageOf } from './passages';
import { schema, type Validate } from './schema';

let validate: Validate | undefined;
beforeAll(() => {
  validate = schema();
});

function solved(text: string): string {
  const passage = passageOf(text);
  return writeMusicXml(passage, { solution: createSolver().solve(passage) });
}

/** Every note of a score as the independent reader sees it: pitch, head, length, and its technical marks. */
function notesOf(xml: string): readonly string[] {
  const score = parseIndependently(xml);
  return (score.parts[0]?.measures ?? []).flatMap((measure) =>
    measure.entries.flatMap((entry) => (entry.type === 'note' ? [noteLine(entry)] : [])),
  );
}

function noteLine(note: NoteEntry): string {
  const { pitch } = note;
  const name = pitch ? `${pitch.step}${pitch.alter === 1 ? '#' : pitch.alter === -1 ? 'b' : ''}${pitch.octave}` : 'rest';
  const marks = (note.notations ?? []).flatMap((n) => {
    if (n.type !== 'technical') return [];
    if (n.technical === 'string') return [`string ${n.string}`];
    if (n.technical === 'fingering') return [`finger ${n.text}`];
    if (n.technical !== 'harmonic') return [`${n.technical}${n.text ? ` ${n.text}` : ''}`];
    const kind = n.harmonicNatural ? 'natural' : n.harmonicArtificial ? 'artificial' : 'harmonic';
    return [
      [kind, n.basePitch && 'base', n.touchingPitch && 'touching', n.soundingPitch && 'sounding'].filter(Boolean).join(' '),
    ];
  });
  return [note.chord ? '+' : '', name, note.duration, note.notehead?.value ?? '', ...marks]
    .filter((part) => part !== '')
    .join(', ');
}

describe('an independent reader (musicxml-io) finds', () => {
  test('an artificial harmonic as stopped note, diamond, and sounding pitch in brackets', () => {
    expect(notesOf(writeMusicXml(passageOf('1/4 E5<>A5 [II 1-4]')))).toEqual([
      'E5, 1, artificial base, finger 1, string 2',
      '+, A5, 1, diamond, artificial touching, finger 4, string 2',
      '+, E7, 1, normal, artificial sounding',
    ]);
  });

  test('a natural harmonic chosen by the solver, with its string, finger and point of division', () => {
    expect(notesOf(solved('1/4 D6o [III 1]'))).toEqual(['D6, 1, natural sounding, finger 1, string 3, other-technical at 1/4']);
  });

  test('a lone diamond with what it sounds', () => {
    expect(notesOf(writeMusicXml(passageOf('1/4 <>A4 = A5 [III 3]')))).toEqual([
      'A4, 1, diamond, natural touching, finger 3, string 3',
      '+, A5, 1, normal, natural sounding',
    ]);
  });

  test('a sounding pitch that the solver plays as an artificial harmonic, in its printed form', () => {
    const [base, touch, sound] = notesOf(solved('1/4 G6o [fourth]'));
    expect(base).toMatch(/^G4, 1, artificial base, finger 1, string [34]/);
    expect(touch).toMatch(/^\+, C5, 1, diamond, artificial touching, finger 4/);
    expect(sound).toBe('+, G6, 1, normal, artificial sounding');
  });

  test('an open string, a thumb and a stopped note', () => {
    expect(notesOf(solved('instrument: cello\n1/4 A3 [open] C#4 [I stopped]'))[0]).toBe('A3, 1, open-string, string 1');
    expect(notesOf(writeMusicXml(passageOf('instrument: cello\n1/4 A4 [T]')))).toEqual(['A4, 1, thumb-position']);
  });

  test('durations: tuplets, dots, and ties where no note value is as long', () => {
    expect(notesOf(writeMusicXml(passageOf('1/12 D5 E5 F5 3/16 G5 5/16 A5')))).toEqual([
      'D5, 4',
      'E5, 4',
      'F5, 4',
      'G5, 9',
      'A5, 12',
      'A5, 3',
    ]);
  });
});

describe('the score', () => {
  const study = `title: Lighthouse studies
instrument: viola
passage: Fog signal
key: Eb major
meter: 6/8
tempo: 3/8 = 56
> Slow bows
1/8 Eb5 | down(1/8 F5 G5 Ab5) up(1/16 Bb5 C6 D6o E6o 1/8 A5) | pp 1/4 rest 1/8 A5 G5<>C6 rest rest |: 1/8 slide D6o Eb5 E5 F5 F#5 G5 :|
`;

  test('is valid MusicXML 4.0, as written and as fingered', () => {
    expect(validate?.(writeMusicXml(passageOf(study), { work: 'Lighthouse studies', version: '0.0.0' })) ?? []).toEqual([]);
    expect(validate?.(solved(study)) ?? []).toEqual([]);
  });

  test('is the same text every time', () => {
    expect(solved(study)).toBe(solved(study));
    expect(solved(study)).not.toMatch(/20\d\d-\d\d/);
  });

  test('has titles, key, meter, clef, tempo, upbeat, repeats and directions where programs look for them', () => {
    const xml = writeMusicXml(passageOf(study), { work: 'Lighthouse studies' });
    const read = parseIndependently(xml);
    expect(read.metadata).toMatchObject({ workTitle: 'Lighthouse studies', movementTitle: 'Fog signal' });
    const [upbeat, first, , third] = read.parts[0]?.measures ?? [];
    expect(upbeat).toMatchObject({ number: '0', implicit: true });
    expect(upbeat?.attributes).toMatchObject({
      key: { fifths: -3 },
      time: { beats: '6', beatType: 8 },
      clef: [{ sign: 'G', line: 2 }],
    });
    expect(first?.number).toBe('1');
    expect(third?.barlines?.map((b) => b.repeat?.direction)).toEqual(['forward', 'backward']);
    expect(xml).toMatch(/<words>Slow bows<\/words>/);
    expect(xml).toMatch(/<beat-unit>quarter<\/beat-unit>\s*<beat-unit-dot\/>\s*<per-minute>56<\/per-minute>/);
    expect(xml).toMatch(/<sound tempo="84"\/>/);
  });

  test('prints an accidental once a bar, and only where the key has it not', () => {
    const xml = writeMusicXml(passageOf('key: D major\nmeter: 4/4\n1/4 F#5 F5 F5 F#5 | F#5 C#5 Bb4 B4 |'));
    expect(xml.match(/<accidental>[^<]*/g)).toEqual([
      '<accidental>natural',
      '<accidental>sharp',
      '<accidental>flat',
      '<accidental>natural',
    ]);
  });

  test('beams eighths and shorter by the beat', () => {
    const beams = (text: string) => writeMusicXml(passageOf(text)).match(/(?<=<beam number="1">)\w+/g);
    expect(beams('meter: 2/4\n1/8 D5 E5 F5 G5 |')).toEqual(['begin', 'end', 'begin', 'end']);
    expect(beams('meter: 3/8\n1/8 D5 E5 F5 |')).toEqual(['begin', 'continue', 'end']);
    expect(beams('meter: 6/8\n1/8 D5 E5 F5 G5 A5 B5 |')).toEqual(['begin', 'continue', 'end', 'begin', 'continue', 'end']);
    expect(writeMusicXml(passageOf('meter: 1/4\n3/16 D5 1/16 E5 |'))).toContain('<beam number="2">backward hook</beam>');
  });

  test('holds text that XML reserves, and drops what XML can not hold', () => {
    const xml = writeMusicXml(passageOf('passage: Ebb & <flow> "2"\u0001\n> a < b\n1/4 D5'));
    expect(xml).toContain('<movement-title>Ebb &amp; &lt;flow&gt; &quot;2&quot;\uFFFD</movement-title>');
    expect(validate?.(xml) ?? []).toEqual([]);
  });

  test('of an empty passage is still a score', () => {
    expect(() => writeMusicXml(passageOf('passage: Nothing yet\n'))).not.toThrow();
  });
});
