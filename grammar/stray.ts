import type { IToken } from 'chevrotain';
import { later, t } from '../server/l10n/translate';
import { spanOf } from './pitch-words';
import { problem, quoted, type Replacement, type Report, removal, remove, type SyntaxCode } from './problems';
import type { Span } from './tree';

/** What to say of a mark that stands where nothing can take it up, by the name of its token. */
const MESSAGES: Readonly<Record<string, readonly [SyntaxCode, string]>> = {
  RightBracket: [
    'stray-bracket',
    later('This bracket closes nothing. Hints open with [ after their note: D6o [III]. Remove it, or add the opening bracket.'),
  ],
  RightParenthesis: [
    'stray-parenthesis',
    later(
      'This parenthesis closes nothing. A bow stroke opens with slur(, up( or down( on the same line. Remove it, or open the stroke.',
    ),
  ],
  Plus: [
    'note-missing',
    later('A + joins two notes of a double stop, and there is no note before this one. Write it between two notes: D6o+A6o.'),
  ],
  Breaking: [
    'hints-without-note',
    later('How a chord is broken stands in square brackets after it: G3+D4+B4+G5 [2+2]. Put it there, or remove it.'),
  ],
  Equals: [
    'stray',
    later('An = names what a note sounds, and there is no note before it. Write it after the note: E5<>A5 = E7.'),
  ],
  Tie: [
    'stray',
    later('A _ holds a note over into the next, and there is no note before it. Write it straight after the note: D6o_.'),
  ],
  Direction: [
    'parenthesis-missing',
    later(
      'Up and down bows hold their notes in parentheses: up(D5 E5). After the name of a motif the same words move it: wave up M2. Here it is neither.',
    ),
  ],
  On: ['motif-change', later('“on” moves a motif and stands after its name: wave on E5. There is no motif before this one.')],
  In: [
    'motif-change',
    later('“in” moves a motif along a scale and stands after its name: wave in D major up 2. There is no motif before this one.'),
  ],
  Backwards: [
    'motif-change',
    later('“backwards” turns a motif round and stands after its name: wave backwards. There is no motif before this one.'),
  ],
  Motif: [
    'stray',
    later('A motif is named on a line of its own that begins with this word: motif wave = D5 E5. Move it to its own line.'),
  ],
};
const COLON = later(
  'A colon belongs after the name of a setting at the start of a line (tempo: 1/4 = 96) or in a repeat (|: or :|). Remove it.',
);

/** Does a sign stand next to this stretch of a line that would join a note written there? */
export function joinsSign(line: string, { start, end }: Span): boolean {
  return /[+<>=]\s*$/.test(line.slice(0, start)) || /^\s*[=_[+<>]/.test(line.slice(end));
}

/** Reports one token that no note, stroke or motif can take up. */
export function reportStray(token: IToken, report: Report): void {
  const { image, tokenType } = token;
  const place = spanOf(token);
  const known = MESSAGES[tokenType.name];
  if (known) {
    const fixes: Replacement[] = ['On', 'In', 'Direction', 'Motif'].includes(tokenType.name) ? [] : [remove(image)];
    report(problem(known[0], place, t(known[1]), fixes));
  } else if (image === 'slur') {
    report(
      problem(
        'parenthesis-missing',
        place,
        t('A slur holds its notes in parentheses, and the opening one is missing. Write slur(D5 E5).'),
      ),
    );
  } else if (image === 'o' || image === '°') {
    report(
      problem('circle-misplaced', place, t('The circle of a harmonic goes straight after its pitch, without a space: D6o.'), [
        removal(t('Remove the circle')),
      ]),
    );
  } else {
    const why = image.startsWith(':')
      ? t(COLON)
      : t('{written} has no meaning between notes; a space is enough. Remove it.', { written: quoted(image) });
    report(problem('stray', place, why, [remove(quoted(image))]));
  }
}
