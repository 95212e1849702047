import type { IToken } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { reportLikePitch } from './like-pitch';
import { reportCircle } from './motif-words';
import { readPitch, spanOf } from './pitch-words';
import { problem, type Report, removal, remove } from './problems';
import { LikePitch, Pitch } from './tokens';
import type { HintList, NoteForm, NoteNode, PitchNode, Span } from './tree';
import { reportUnreadable } from './unreadable';

/** A note while it is read: its form, then its marks in any order. */
export class NoteDraft {
  private from = 0;
  private to = 0;
  private form: NoteForm | undefined;
  private keepsTime = false;
  private expected: NoteNode['expected'];
  private held: Span | undefined;
  private hints: HintList | undefined;

  /** `octave`: of the pitch before this note on the line; afterwards of this one. */
  constructor(
    public octave: number | undefined,
    private readonly report: Report,
  ) {}

  /** `E5`, `E5<>A5` or `<>A4`. */
  start(word: IToken | undefined, diamond: IToken | undefined, touched: IToken | undefined): void {
    const first = word ?? diamond;
    const last = touched ?? diamond ?? word;
    if (!first || !last) return;
    this.from = first.startOffset;
    this.reach(last);
    const place = { start: this.from, end: this.to };
    const main = word && this.pitch(word, diamond === undefined);
    if (!diamond) {
      if (main) this.form = { kind: 'plain', ...place, pitch: main.pitch, ...(main.circle && { circle: main.circle }) };
      return;
    }
    this.keepsTime = true;
    if (!touched) {
      const why = t('The pitch to touch lightly is missing after the diamond. Write it straight after: E5<>A5.');
      this.report(problem('touch-missing', spanOf(diamond), why, word ? [removal(t('Remove the diamond'))] : []));
      return;
    }
    const touch = this.pitch(touched, false);
    if (!touch || (word && !main)) return;
    this.form = main
      ? { kind: 'artificial', ...place, stop: main.pitch, touch: touch.pitch }
      : { kind: 'diamond', ...place, touch: touch.pitch };
  }

  /** `= E7`. */
  expect(equals: IToken, sounding: IToken | undefined): void {
    this.reach(sounding ?? equals);
    if (!sounding) {
      const why = t(
        'The pitch that the note should sound is missing after the =. Write it with its octave, as in E5<>A5 = E7, or remove the =.',
      );
      this.report(problem('sounding-missing', spanOf(equals), why, [remove('the =')]));
      return;
    }
    const read = this.pitch(sounding, false);
    const place = { start: equals.startOffset, end: this.to };
    if (this.expected) this.repeated(place, t('The sounding pitch of this note has been given already. Remove one of the two.'));
    else if (read) this.expected = { ...place, pitch: read.pitch };
  }

  tie(tie: IToken): void {
    this.reach(tie);
    if (this.held)
      this.repeated(spanOf(tie), t('This note is tied already: a single _ holds it over into the next. Remove this one.'));
    else this.held = spanOf(tie);
  }

  hint(list: HintList): void {
    this.to = list.end;
    if (!this.hints) {
      this.hints = list;
      return;
    }
    const why = t('All hints of a note go in one pair of brackets. Put these with the ones before.');
    this.report(problem('hints-apart', list, why));
    this.hints = { start: this.hints.start, end: list.end, hints: [...this.hints.hints, ...list.hints] };
  }

  finish(): NoteNode | 'place' | 'nothing' {
    if (!this.form) return this.keepsTime ? 'place' : 'nothing';
    return {
      start: this.from,
      end: this.to,
      form: this.form,
      ...(this.expected && { expected: this.expected }),
      ...(this.held && { tie: this.held }),
      ...(this.hints && { hints: this.hints }),
    };
  }

  /** Reads the word in the place of a pitch, reporting what is wrong with it. */
  private pitch(word: IToken, mayHaveCircle: boolean): { pitch: PitchNode; circle?: Span } | undefined {
    if (word.tokenType === Pitch) {
      const read = readPitch(word);
      this.octave = read.pitch.octave;
      if (read.circle && !mayHaveCircle) reportCircle(read.circle, this.report);
      return read;
    }
    if (word.tokenType === LikePitch) {
      this.keepsTime = true;
      reportLikePitch(word, this.octave, this.report);
    } else if (reportUnreadable(word, this.report)) this.keepsTime = true;
    return undefined;
  }

  private repeated(place: Span, why: string): void {
    this.report(problem('repeated-mark', place, why, [removal(t('Remove the second one'))]));
  }

  private reach(last: IToken): void {
    this.to = last.startOffset + last.image.length;
  }
}
