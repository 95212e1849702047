import type { IToken, ParserMethod } from 'chevrotain';
import { t } from '../server/l10n/translate';
import { settleBrackets } from './brackets';
import { readDuration } from './duration-words';
import { type DirectionWord, type JumpWord, type MarkWord, plainWord, type Stress } from './marks';
import { MotifParser } from './motif-parser';
import { isMotifName } from './motif-words';
import { spanOf } from './pitch-words';
import { problem, quoted, type Report, write } from './problems';
import { restOf } from './rest';
import { reportStray } from './stray';
import { markMissesNote, markOverRest, nestedStroke, nothingInside, strokeOf, unclosedStroke, underMarks } from './strokes';
import * as T from './tokens';
import type { BarItem, Dynamic, Item, MarkNode, Word } from './tree';
import { reportBar } from './unreadable';

export interface MotifParts {
  readonly name: Word;
  readonly items: Item[];
}

/**
 * The grammar of music and motif lines. It takes every sequence of tokens: what is wrong is a production of its
 * own that reports its problem, so an error costs what it touches and the parser's own recovery is never needed.
 */
export class MusicParser extends MotifParser {
  /** Bow strokes that are open. */
  private strokes = 0;

  constructor(checkGrammar = false) {
    super(T.TOKENS, { maxLookahead: 1, skipValidations: !checkGrammar });
    this.performSelfAnalysis();
  }

  /** Parses `line` as music, reporting what is wrong with it. */
  parseMusic(line: string, report: Report): Item[] {
    this.begin(line, report);
    return this.musicLine();
  }

  parseMotif(line: string, report: Report): MotifParts {
    this.begin(line, report);
    return this.motifLine();
  }

  private begin(line: string, report: Report): void {
    this.source = line;
    this.report = report;
    this.strokes = 0;
    this.octave = undefined;
    this.input = settleBrackets(T.tokenize(line), this.report);
  }

  private readonly musicLine: ParserMethod<[], Item[]> = this.RULE('musicLine', () => {
    const items: Item[] = [];
    this.MANY(() => {
      this.OR([
        {
          ALT: () => {
            const item = this.SUBRULE(this.item);
            this.ACTION(() => item && items.push(item));
          },
        },
        {
          ALT: () => {
            const stray = this.CONSUME(T.RightParenthesis);
            this.ACTION(() => reportStray(stray, this.report));
          },
        },
      ]);
    });
    return items;
  });

  private readonly motifLine: ParserMethod<[], MotifParts> = this.RULE('motifLine', () => {
    const motif = this.CONSUME(T.Motif);
    const name = this.OPTION({
      GATE: () => this.LA(1).tokenType !== T.Equals && (this.LA(1).tokenType === T.Name || this.LA(2).tokenType === T.Equals),
      DEF: () => this.CONSUME(T.Inside),
    });
    const severalWords = this.ACTION(() => name !== undefined && this.namesUpToEquals());
    let last = name;
    this.MANY({
      GATE: () => severalWords,
      DEF: () => {
        last = this.CONSUME(T.Name);
      },
    });
    const equals = this.OPTION2(() => this.CONSUME(T.Equals));
    const named = this.ACTION(() => this.nameOfMotif(motif, name, last, equals));
    const items = this.SUBRULE(this.musicLine);
    return { name: named, items };
  });

  /** Do only names stand before the next `=`? */
  private namesUpToEquals(): boolean {
    let ahead = 1;
    while (this.LA(ahead).tokenType === T.Name) ahead++;
    return this.LA(ahead).tokenType === T.Equals;
  }

  private nameOfMotif(motif: IToken, first: IToken | undefined, last: IToken | undefined, equals: IToken | undefined): Word {
    const after = spanOf(motif).end;
    if (!first || !last) {
      const why = t('A motif needs a name between “motif” and “=”, so that the music can call it: motif wave = D5 E5.');
      this.report(problem('motif-name', spanOf(motif), why));
      return { start: after, end: after, text: '' };
    }
    const place = { start: first.startOffset, end: spanOf(last).end };
    if (first !== last) {
      const joined = this.source.slice(place.start, place.end).trim().replace(/\s+/g, '-');
      this.report(
        problem('motif-name', place, t('The name of a motif is one word. Join its words with a hyphen.'), [write(joined)]),
      );
    } else if (!isMotifName(first.image)) {
      const why = t(
        "A motif can't be called {name}, because that means something else here. Choose another word, such as wave.",
        { name: quoted(first.image) },
      );
      this.report(problem('motif-name', place, why));
    }
    if (!equals) {
      const why = t('An = belongs between the name of a motif and its notes: motif wave = D5 E5. Add it.');
      this.report(problem('motif-equals', place, why, [write(`${first.image} =`)]));
    }
    return { ...spanOf(first), text: first.image };
  }

  private readonly item: ParserMethod<[], Item | undefined> = this.RULE('item', () =>
    this.OR([
      {
        ALT: () => {
          const fraction = this.CONSUME(T.Fraction);
          return this.ACTION(() => readDuration(fraction, this.report));
        },
      },
      {
        ALT: () => {
          const dynamic = this.CONSUME(T.Dynamic);
          return this.ACTION(() => ({ kind: 'dynamic' as const, ...spanOf(dynamic), level: dynamic.image as Dynamic | Stress }));
        },
      },
      {
        ALT: () => {
          const bar = this.CONSUME(T.Bar);
          return this.ACTION(() => this.barOf(bar));
        },
      },
      {
        ALT: () => {
          const rest = this.CONSUME(T.Rest);
          return this.ACTION(() => restOf(rest));
        },
      },
      {
        ALT: () => {
          const saying = this.CONSUME(T.Saying);
          return this.ACTION(() => ({
            kind: 'direction' as const,
            ...spanOf(saying),
            word: plainWord<DirectionWord>(saying.image),
          }));
        },
      },
      {
        ALT: () => {
          const text = this.CONSUME(T.Quotation);
          return this.ACTION(() => ({
            kind: 'direction' as const,
            ...spanOf(text),
            word: `"${text.image.slice(1, -1)}"` as const,
          }));
        },
      },
      {
        ALT: () => {
          const jump = this.CONSUME(T.Jump);
          return this.ACTION(() => ({ kind: 'jump' as const, ...spanOf(jump), word: plainWord<JumpWord>(jump.image) }));
        },
      },
      {
        ALT: () => {
          const ending = this.CONSUME(T.Ending);
          return this.ACTION(() => ({
            kind: 'ending' as const,
            ...spanOf(ending),
            times: (ending.image.match(/[1-9]/g) ?? []).map(Number),
          }));
        },
      },
      { ALT: () => this.SUBRULE(this.marked) },
      { ALT: () => this.SUBRULE(this.stroke) },
      { ALT: () => this.SUBRULE(this.event) },
      { ALT: () => this.SUBRULE(this.motifUse) },
      { ALT: () => this.SUBRULE(this.looseHints) },
      { ALT: () => this.SUBRULE(this.stray) },
    ]),
  );

  private barOf(token: IToken): BarItem {
    const { image } = token;
    const known = image === '|' || image === '||' || image === '|:' || image === ':|';
    return { kind: 'bar', ...spanOf(token), style: known ? image : reportBar(token, this.report) };
  }

  /** `staccato accent A5`, `staccato(A5 B5)`, `staccato slur(A5 B5)`. */
  private readonly marked: ParserMethod<[], Item | undefined> = this.RULE('marked', () => {
    const marks: MarkNode[] = [];
    this.AT_LEAST_ONE(() => {
      const word = this.CONSUME(T.Mark);
      this.ACTION(() => marks.push({ ...spanOf(word), word: word.image as MarkWord }));
    });
    const item = this.OPTION(() =>
      this.OR([
        // Parentheses behind a mark are its own; only elsewhere they begin a stroke without a word.
        { ALT: () => this.SUBRULE(this.parenthesised), IGNORE_AMBIGUITIES: true },
        { ALT: () => this.SUBRULE(this.event) },
        { ALT: () => this.SUBRULE(this.motifUse) },
        { ALT: () => this.SUBRULE(this.stroke) },
        {
          ALT: () => {
            const rest = this.CONSUME(T.Rest);
            return this.ACTION(() => restOf(rest));
          },
        },
      ]),
    );
    return this.ACTION(() => {
      if (item?.kind === 'rest') return underMarks(markOverRest(marks, this.report), item, this.report);
      if (!item) {
        // Where something stands that could not be read, that has been told.
        if (this.LA(0).tokenType === T.Mark) markMissesNote(marks, this.report);
        return undefined;
      }
      return underMarks(marks, item, this.report);
    });
  });

  private readonly parenthesised: ParserMethod<[], Item | undefined> = this.RULE('parenthesised', () => {
    const open = this.CONSUME(T.LeftParenthesis);
    const items: Item[] = [];
    this.MANY(() => {
      const item = this.SUBRULE(this.item);
      this.ACTION(() => item && items.push(item));
    });
    const last = this.ACTION(() => this.LA(0));
    const close = this.OPTION(() => this.CONSUME(T.RightParenthesis));
    const hints = this.OPTION2({ GATE: () => close !== undefined, DEF: () => this.SUBRULE(this.hints) });
    return this.ACTION(() => {
      const place = { start: open.startOffset, end: hints?.end ?? spanOf(close ?? last).end };
      if (close && items.length === 0) nothingInside(place, this.report);
      if (!close) unclosedStroke(open, last, this.report);
      return { kind: 'group' as const, ...place, items, ...(hints && { hints }) };
    });
  });

  private readonly stroke: ParserMethod<[], Item | undefined> = this.RULE('stroke', () => {
    const word = this.OPTION(() => this.CONSUME(T.StrokeWord));
    const open = this.CONSUME(T.LeftParenthesis);
    const items: Item[] = [];
    const group = this.ACTION(() => !word && open.payload === true);
    this.ACTION(() => {
      if (!group && this.strokes++ > 0) nestedStroke(word ?? open, this.report);
    });
    this.MANY(() => {
      const item = this.SUBRULE(this.item);
      this.ACTION(() => item && items.push(item));
    });
    const last = this.ACTION(() => this.LA(0));
    const close = this.OPTION2(() => this.CONSUME(T.RightParenthesis));
    const hints = this.OPTION3({ GATE: () => close !== undefined, DEF: () => this.SUBRULE(this.hints) });
    return this.ACTION(() => {
      const place = { start: spanOf(word ?? open).start, end: hints?.end ?? spanOf(close ?? last).end };
      if (close && items.length === 0) nothingInside(place, this.report);
      if (group && hints) return { kind: 'group' as const, ...place, items, hints };
      this.strokes--;
      if (!close) unclosedStroke(word ?? open, last, this.report);
      return strokeOf(word, open, { ...place, items, ...(hints && { hints }) }, this.report);
    });
  });

  private readonly looseHints: ParserMethod<[], undefined> = this.RULE('looseHints', () => {
    const hints = this.SUBRULE(this.hints);
    return this.ACTION(() => {
      const why = t(
        'These hints follow no note, so they have no effect. Write them straight after the note they belong to: D6o [III 1].',
      );
      this.report(problem('hints-without-note', hints, why, [{ title: t('Remove these hints'), text: '' }]));
      return undefined;
    });
  });

  private readonly stray: ParserMethod<[], undefined> = this.RULE('stray', () => {
    const token = this.CONSUME(T.Loose);
    return this.ACTION(() => {
      reportStray(token, this.report);
      return undefined;
    });
  });
}
