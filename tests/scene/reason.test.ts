import { describe, expect, it } from 'vitest';
import { reasonFor } from '../../server/scene/reason';
import { reading } from '../support/reading';

/** The reason for every event of a passage whose hints fix the fingering, so that only the words are under test. */
function reasons(text: string): readonly (string | undefined)[] {
  const [solution] = reading(text).solutions;
  return solution!.passage.events.map((_, event) => reasonFor(solution!, event));
}

describe('the reason for a choice, in players’ words', () => {
  it('tells where the hand begins, stays and goes, and what makes the shift a good one', () => {
    expect(reasons('1/4 D5 [II 3rd] E5 [II 3rd] G5 [II 3rd]')).toEqual([
      'begins in 3rd position',
      'keeps 3rd position',
      'keeps 3rd position',
    ]);
    expect(reasons('1/4 C5 [II 1st] D5 [II 3rd]')[1]).toMatch(/^shifts to 3rd position/);
    expect(reasons('1/4 C#5 [II 1st] D5 [II 3rd]')[1]).toBe('shifts to 3rd position on the half step');
    expect(reasons('1/4 C5 [II 1st] rest E5 [II 3rd]')[1]).toBe('shifts to 3rd position in the rest');
  });

  it('tells of open strings and of fourth fingers beside them', () => {
    expect(reasons('1/16 F#5 [I 1st] E5 [I open] G5 [I 1st]')[1]).toBe('as its hints ask');
    expect(reasons('tempo: 1/4 = 100\n1/16 F#5 [I 1st] E5 [I] G5 [I 1st]')[1]).toBe('open string on a short note');
    expect(reasons('1/4 G5 [I 1st] E5 [I] E6 [I 7th]')[1]).toBe('the open string covers the shift to 7th position');
    expect(reasons('1/8 slur(D5 E5 D5)[II 1st]')[1]).toBe('fourth finger avoids two crossings');
    expect(reasons('1/8 (D5 E5)[II 1st] F#5 [I 1st]')[1]).toBe('fourth finger avoids a crossing');
  });

  it('tells of what came before: a held note, a repeated one, a bar that comes back', () => {
    const bars = '1/8 G4 B4 A4 C5 | B4 C5 D5 E5 | G4 B4 A4 C5 ||';
    expect(reasons(`meter: 2/4\n${bars}`).slice(8)).toEqual(['as in bar 1', 'as in bar 1', 'as in bar 1', 'as in bar 1']);
    expect(reasons('1/4 D5 D5')[1]).toBe('keeps its finger');
    expect(reasons('1/4 D5_ D5')[1]).toBe('held over');
    expect(reasons('1/4 D5 [II 3]')[0]).toBe('as its hints ask');
  });

  it('has none where nothing is played', () => {
    expect(reasons('1/4 rest D5 C9')).toEqual([undefined, expect.any(String), undefined]);
  });
});
