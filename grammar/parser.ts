import type { IToken, ParserMethod } from 'chevrotain';
import { settleBrackets } from './brackets';
import { readDuration } from './duration-words';
import { isAmount, isKeyName, isMotifName, readDiatonicChange, readIntervalChange, readOnChange } from './motif-words';
import { NoteParser } from './note-parser';
import { spanOf } from './pitch-words';
import { problem, quoted, type Report, write } from './problems';
import { reportStray } from './stray';
import { nestedStroke, nothingInside, strokeOf, unclosedStroke } from './strokes';
import * as T from './tokens';
import type { BarItem, Dynamic, Item, MotifChange, Word } from './tree';
import { reportBar, reportDynamic } from './unreadable';

export interface MotifParts {
  readonly name: Word;
  readonly items: Item[];
}

/**
 * The grammar of music and motif lines. It takes every sequence of tokens: what is wrong is a production of its
 * own that reports its problem, so an error costs what it touches and the parser's own recovery is never needed.
 */
export class MusicParser extends NoteParser {
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
      const why = 'A motif needs a name between “motif” and “=”, by which the music calls it: motif wave = D5 E5.';
      this.report(problem('motif-name', spanOf(motif), why));
      return { start: after, end: after, text: '' };
    }
    const place = { start: first.startOffset, end: spanOf(last).end };
    if (first !== last) {
      const joined = this.source.slice(place.start, place.end).trim().replace(/\s+/g, '-');
      this.report(
        problem('motif-name', place, 'The name of a motif is one word. Join its words with a hyphen.', [write(joined)]),
      );
    } else if (!isMotifName(first.image)) {
      const why = `A motif can't be called ${quoted(first.image)}, because that means something else here. Take another word, such as wave.`;
      this.report(problem('motif-name', place, why));
    }
    if (!equals) {
      const why = 'An = belongs between the name of a motif and its notes: motif wave = D5 E5. Add it.';
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
          return this.ACTION(() => ({ kind: 'dynamic' as const, ...spanOf(dynamic), level: dynamic.image as Dynamic }));
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
          return this.ACTION(() => ({ kind: 'rest' as const, ...spanOf(rest) }));
        },
      },
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
      const why =
        'These hints follow no note, so they say nothing. Write them straight after the note they belong to: D6o [III 1].';
      this.report(problem('hints-without-note', hints, why, [{ title: 'Remove these hints', text: '' }]));
      return undefined;
    });
  });

  private readonly motifUse: ParserMethod<[], Item | undefined> = this.RULE('motifUse', () => {
    const name = this.CONSUME(T.Name);
    const changes: MotifChange[] = [];
    const isDynamic = this.ACTION(() => reportDynamic(name, this.report));
    this.MANY({
      GATE: () => !isDynamic,
      DEF: () => {
        const change = this.SUBRULE(this.change);
        this.ACTION(() => change && changes.push(change));
      },
    });
    return this.ACTION(() => {
      if (isDynamic) return undefined;
      const last = this.LA(0);
      const whole = { start: name.startOffset, end: last.startOffset + last.image.length };
      return { kind: 'motif' as const, ...whole, name: { ...spanOf(name), text: name.image }, changes };
    });
  });

  private readonly change: ParserMethod<[], MotifChange | undefined> = this.RULE('change', () =>
    this.OR([
      {
        ALT: () => {
          const direction = this.CONSUME(T.Direction);
          const amount = this.OPTION({ GATE: () => isAmount(this.LA(1)), DEF: () => this.CONSUME(T.AnyWord) });
          return this.ACTION(() => readIntervalChange(direction, amount, this.report));
        },
      },
      {
        ALT: () => {
          const on = this.CONSUME(T.On);
          const target = this.OPTION2(() => this.CONSUME5(T.PitchWord));
          return this.ACTION(() => readOnChange(on, target, this.report));
        },
      },
      {
        ALT: () => {
          const start = this.CONSUME(T.In);
          const tonic = this.OPTION3({ GATE: () => isKeyName(this.LA(1).image), DEF: () => this.CONSUME2(T.AnyWord) });
          const mode = this.OPTION4({
            GATE: () => /^(?:major|minor)$/.test(this.LA(1).image),
            DEF: () => this.CONSUME3(T.AnyWord),
          });
          const direction = this.OPTION5(() => this.CONSUME2(T.Direction));
          const steps = this.OPTION6({ GATE: () => /^[0-9]+$/.test(this.LA(1).image), DEF: () => this.CONSUME4(T.AnyWord) });
          return this.ACTION(() => readDiatonicChange(start, { tonic, mode, direction, steps }, this.report));
        },
      },
      {
        ALT: () => {
          const backwards = this.CONSUME(T.Backwards);
          return this.ACTION(() => ({ kind: 'backwards' as const, ...spanOf(backwards) }));
        },
      },
    ]),
  );

  private readonly stray: ParserMethod<[], undefined> = this.RULE('stray', () => {
    const token = this.CONSUME(T.Loose);
    return this.ACTION(() => {
      reportStray(token, this.report);
      return undefined;
    });
  });
}
