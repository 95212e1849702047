import { describe, expect, it } from 'vitest';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { draft, type Snapshot, snapshot, solved } from '../../server/workspace/snapshot';
import { edited, longFile } from '../bench/long-file';

const STUDY = `passage: Lighthouse study
tempo: 1/4 = 72

1/4 D6o E6o F#6o G6o |

passage: Harbour bells
1/4 <>A4 [III] A5 G5 |
`;

/** What must not depend on how a snapshot came about. */
function substance({ tree, problems, solutions }: Snapshot) {
  return {
    text: tree.text,
    problems,
    solutions: solutions.map(({ events, cost, clean, hardest }) => ({ events, cost, clean, hardest })),
  };
}

/** Its problems but for their fixes, which cost far more. */
function told({ problems }: Snapshot) {
  return problems.map(({ code, severity, span, message, related }) => ({ code, severity, span, message, related }));
}

describe('snapshot', () => {
  it('fingers every passage of a text and carries its version', () => {
    const made = snapshot(STUDY, 7, DEFAULT_SETTINGS);
    expect(made.version).toBe(7);
    expect(made.solutions.map(({ passage }) => passage.title)).toEqual(['Lighthouse study', 'Harbour bells']);
    expect(made.solutions.flatMap(({ events }) => events.map((event) => event?.fingering.ways.length))).toEqual([
      1, 1, 1, 1, 1, 1, 1,
    ]);
  });

  it('is the same after an edit as from scratch', () => {
    let now = snapshot(STUDY, 1, DEFAULT_SETTINGS);
    for (const edit of [
      (text: string) => text.replace('F#6o', 'F6o'),
      (text: string) => text.replace('G5 |', 'G5 B5o |'),
      (text: string) => `// a comment\n${text}`,
      (text: string) => text.replace('passage: Harbour', 'passage: New\n1/8 D5 E5\n\npassage: Harbour'),
      (text: string) => text.replace(/passage: Lighthouse[\s\S]*?\n\n1/, '1'),
      (text: string) => text.replace('A5', 'A5 Q7 ['),
    ]) {
      const text = edit(now.tree.text);
      now = snapshot(text, now.version + 1, DEFAULT_SETTINGS, now);
      expect(substance(now)).toEqual(substance(snapshot(text, 1, DEFAULT_SETTINGS)));
    }
  });

  it('has the same problems after many edits of a risky passage as from scratch', () => {
    let text = `tempo: 1/4 = 200\n${longFile(12).replaceAll('1/8', '1/16 ff')}`.replaceAll('F5<>Bb5', 'E5<>A5');
    let now = snapshot(text, 1, DEFAULT_SETTINGS);
    const codes = new Set<string>();
    for (let edit = 0; edit < 24; edit++) {
      text = edit % 8 === 7 ? text.replace(/ [A-G]\S* \|/, ' |') : edited(text, edit);
      now = snapshot(text, edit + 2, DEFAULT_SETTINGS, now);
      expect(told(now)).toEqual(told(solved(draft(text, 1, DEFAULT_SETTINGS), undefined, now.solver)));
      for (const { code } of now.problems) codes.add(code);
    }
    expect(codes).toContain('tempo-risk');
    expect(codes.size).toBeGreaterThan(3);
  });

  it('keeps the solution of a passage that the edit does not reach', () => {
    const before = snapshot(STUDY, 1, DEFAULT_SETTINGS);
    const after = snapshot(STUDY.replace('G5 |', 'G5 B5o |'), 2, DEFAULT_SETTINGS, before);
    expect(after.solutions[0]).toBe(before.solutions[0]);
    expect(after.solutions[1]).not.toBe(before.solutions[1]);
  });

  it('takes instrument and hand from the settings only where the file is silent', () => {
    const viola = { ...DEFAULT_SETTINGS, instrument: 'viola 16in', hand: 'large' };
    const setupOf = (text: string) => snapshot(text, 1, viola).resolved.passages[0]?.setup;
    expect(setupOf('D5 E5')?.instrument.family).toBe('viola');
    expect(setupOf('D5 E5')?.hand.name).toBe('large');
    expect(setupOf('instrument: violin\nhand: small\nD5 E5')?.instrument.family).toBe('violin');
    expect(setupOf('instrument: violin\nhand: small\nD5 E5')?.hand.name).toBe('small');
  });

  it('takes overrides against the file', () => {
    const made = snapshot('hand: small\nD5', 1, DEFAULT_SETTINGS, undefined, { hand: { kind: 'named', name: 'large' } });
    expect(made.resolved.passages[0]?.setup.hand.name).toBe('large');
  });

  it('puts problems in the order of the file', () => {
    const made = snapshot('1/4 H5 D6o\nwobble: 3\n1/4 D5 [XX]\n', 1, DEFAULT_SETTINGS);
    const starts = made.problems.map(({ span }) => span.start);
    expect(starts.length).toBeGreaterThan(2);
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  it('is sure of a fix that spells the very same thing, finds the only other one likely, and chooses among none', () => {
    const fixes = (text: string) =>
      snapshot(text, 1, DEFAULT_SETTINGS).problems.flatMap((problem) => problem.fixes.map(({ certainty = 'none' }) => certainty));
    const sure = [
      'd6o',
      'F♮5',
      'Fx5',
      '1/4.. D5',
      'D5, E5',
      'D6O',
      'tempo 1/4 = 60\nD5',
      'D5 []',
      'D5 [minor third]',
      'motif w D5\nw',
    ];
    for (const text of sure) expect([text, fixes(text)]).toEqual([text, ['sure']]);
    const likely = [
      'H5',
      'b5',
      'Fis5',
      'D60',
      '1/0 D5',
      '8 D5',
      'ffff D5',
      'temp: 1/4 = 60\nD5',
      'tempo: fast\nD5',
      'slur(D5 E5',
    ];
    for (const text of likely) expect([text, new Set(fixes(text))]).toEqual([text, new Set(['likely'])]);
    for (const text of ['F# A5', 'A4<>D5 = A5', '1/4 C3']) {
      expect([text, fixes(text).filter((each) => each !== 'none')]).toEqual([text, []]);
    }
    expect(fixes('F# A5').length).toBeGreaterThan(1);
  });

  it('gives a snapshot for any text at all', () => {
    for (const text of ['', '\n\n', '[[[', 'passage:', '\u{1F600} D6o', 'D6o\r\nE6o\rF#6o', '🎻'.repeat(50), 'a:'.repeat(99)]) {
      const made = snapshot(text, 1, DEFAULT_SETTINGS);
      expect(made.tree.text).toBe(text);
      for (const { span } of made.problems) expect(span.start <= span.end && span.end <= text.length).toBe(true);
    }
  });
});
