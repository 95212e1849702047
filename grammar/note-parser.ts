import { EmbeddedActionsParser, type IToken, type ParserMethod } from 'chevrotain';
import { readHints } from './hints';
import { NoteDraft } from './note-draft';
import { spanOf } from './pitch-words';
import type { Report } from './problems';
import { noteMissing, tooManyNotes } from './strokes';
import * as T from './tokens';
import type { HintList, Item, NoteNode } from './tree';

/** A note that could not be read: `place` if it keeps a note's time, `nothing` if it never had any. */
type Lost = 'place' | 'nothing';

/** The notes of one event that could be read, and whether an unreadable one among them keeps the event's time. */
interface Chord {
  readonly notes: NoteNode[];
  keepsTime: boolean;
}

/** Notes of a chord at most: one for each string. */
export const MOST_NOTES = 4;

/** The part of the grammar that reads notes, double stops, chords and hints. */
export abstract class NoteParser extends EmbeddedActionsParser {
  protected source = '';
  /** Of the last pitch read on the line, for proposals. */
  protected octave: number | undefined;
  protected report: Report = () => {};

  protected readonly event: ParserMethod<[], Item | undefined> = this.RULE('event', () => {
    const first = this.ACTION(() => this.LA(1));
    const slide = this.OR([
      {
        ALT: () => {
          const word = this.CONSUME(T.Slide);
          const chord = this.OPTION(() => this.SUBRULE(this.chord));
          return this.ACTION(() => {
            if (!chord) noteMissing(word, this.report);
            return { word, chord };
          });
        },
      },
      { ALT: () => ({ word: undefined, chord: this.SUBRULE2(this.chord) }) },
    ]);
    return this.ACTION(() => {
      const { word, chord } = slide;
      const whole = { start: first.startOffset, end: spanOf(this.LA(0)).end };
      if (!chord) return undefined;
      if (chord.notes.length > 0) {
        return { kind: 'event' as const, ...whole, notes: chord.notes, ...(word && { slide: spanOf(word) }) };
      }
      const unreadable = this.source.slice(whole.start, whole.end);
      return chord.keepsTime ? { kind: 'rest' as const, ...whole, unreadable } : undefined;
    });
  });

  private readonly chord: ParserMethod<[], Chord> = this.RULE('chord', () => {
    const chord: Chord = { notes: [], keepsTime: false };
    const take = (note: NoteNode | Lost): void => {
      if (typeof note === 'string') chord.keepsTime ||= note === 'place';
      else if (chord.notes.length < MOST_NOTES) chord.notes.push(note);
      else tooManyNotes(note, this.report);
    };
    const note = this.SUBRULE(this.note);
    this.ACTION(() => take(note));
    this.MANY(() => {
      const plus = this.CONSUME(T.Plus);
      const next = this.OPTION(() => this.SUBRULE2(this.note));
      this.ACTION(() => (next === undefined ? noteMissing(plus, this.report) : take(next)));
    });
    return chord;
  });

  private readonly note: ParserMethod<[], NoteNode | Lost> = this.RULE('note', () => {
    const draft = this.ACTION(() => new NoteDraft(this.octave, this.report));
    this.OR([
      {
        ALT: () => {
          const word = this.CONSUME(T.PitchWord);
          // A diamond apart from the pitch before it is a lone one: a note of its own.
          const diamond = this.OPTION({ GATE: () => this.joined(), DEF: () => this.CONSUME(T.Diamond) });
          const touch = this.OPTION2({
            GATE: () => diamond !== undefined && this.joined(),
            DEF: () => this.CONSUME2(T.PitchWord),
          });
          this.ACTION(() => draft.start(word, diamond, touch));
        },
      },
      {
        ALT: () => {
          const diamond = this.CONSUME2(T.Diamond);
          const touch = this.OPTION3({ GATE: () => this.joined(), DEF: () => this.CONSUME3(T.PitchWord) });
          this.ACTION(() => draft.start(undefined, diamond, touch));
        },
      },
    ]);
    this.MANY(() => {
      this.OR2([
        {
          ALT: () => {
            const equals = this.CONSUME(T.Equals);
            const sounding = this.OPTION4(() => this.CONSUME4(T.PitchWord));
            this.ACTION(() => draft.expect(equals, sounding));
          },
        },
        {
          ALT: () => {
            const tie = this.CONSUME(T.Tie);
            this.ACTION(() => draft.tie(tie));
          },
        },
        {
          ALT: () => {
            const brackets = this.SUBRULE(this.hints);
            this.ACTION(() => draft.hint(brackets));
          },
        },
      ]);
    });
    return this.ACTION(() => {
      this.octave = draft.octave;
      return draft.finish();
    });
  });

  /** Does the next token follow the last without a space? */
  private joined(): boolean {
    const last = this.LA(0);
    return this.LA(1).startOffset === last.startOffset + last.image.length;
  }

  /** `[II 1-4]`. Without its closing bracket it ends before the first token that can only be music. */
  protected readonly hints: ParserMethod<[], HintList> = this.RULE('hints', () => {
    const open = this.CONSUME(T.LeftBracket);
    const inside: IToken[] = [];
    this.MANY({
      GATE: () => open.payload === true || !T.ENDS_HINTS.has(this.LA(1).tokenType),
      DEF: () => {
        const hint = this.CONSUME(T.Inside);
        this.ACTION(() => inside.push(hint));
      },
    });
    const close = this.OPTION(() => this.CONSUME(T.RightBracket));
    return this.ACTION(() => readHints(open, inside, close, this.source, this.report));
  });
}
