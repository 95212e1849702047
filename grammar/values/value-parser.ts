import { EmbeddedActionsParser, type IToken, type ParserMethod } from 'chevrotain';
import { spanOf } from '../pitch-words';
import type { PitchNode, TouchInterval } from '../tree';
import { around, keptOf, keyNameOf, keyword, numberFrom, pitchOf, stringOf, wordOf } from './from-tokens';
import { SILENT } from './silent';
import * as T from './value-tokens';
import type { FractionNode, KeepNode, LevelNode, ReachNode, SizeNode, Style, ValueKind, ValueNodes } from './value-tree';

/** All kinds but those in words that are no part of the language. */
export type ParsedKind = Exclude<ValueKind, 'text' | 'path'>;
type Rule<K extends ParsedKind> = ParserMethod<[], ValueNodes[K]>;

/** The grammar of values. Unlike that of music it takes well-written ones only: the first token that does not fit ends the reading. */
export class ValueParser extends EmbeddedActionsParser {
  constructor(checkGrammar = false) {
    super(T.VALUE_TOKENS, { maxLookahead: 1, skipValidations: !checkGrammar, errorMessageProvider: SILENT });
    this.performSelfAnalysis();
  }

  /** The node that the tokens make, and the first token that does not fit: past the last if something is missing there. */
  read<K extends ParsedKind>(kind: K, tokens: IToken[]): { readonly node: ValueNodes[K] } | { readonly misfit: number } {
    this.input = tokens;
    const node = (this[kind] as unknown as Rule<K>)();
    const [error] = this.errors;
    if (!error) return { node };
    const misfit = tokens.indexOf(error.token);
    return { misfit: misfit < 0 ? tokens.length : misfit };
  }

  readonly instrument: Rule<'instrument'> = this.RULE('instrument', () => {
    const family = this.CONSUME(T.Family);
    const size = this.OPTION(() => this.SUBRULE(this.size));
    return this.ACTION(() => ({ family: keyword<'violin' | 'viola' | 'cello'>(family), ...(size && { size }) }));
  });

  private readonly size: ParserMethod<[], SizeNode> = this.RULE('size', () =>
    this.OR([
      {
        ALT: () => {
          const first = this.CONSUME(T.Numeral);
          return this.OR2([
            {
              ALT: () => {
                this.CONSUME(T.Slash);
                const below = this.CONSUME2(T.Numeral);
                return this.ACTION(() => ({ ...around(first, below), name: `${first.image}/${below.image}` }));
              },
            },
            {
              ALT: () => {
                const unit = this.CONSUME(T.Inches);
                return this.ACTION(() => ({ ...around(first, unit), name: `${first.image}in` }));
              },
            },
            {
              ALT: () => {
                const unit = this.CONSUME(T.Millimetres);
                return this.ACTION(() => ({ ...around(first, unit), mm: Number(first.image) }));
              },
            },
          ]);
        },
      },
      {
        ALT: () => {
          const other = this.CONSUME(T.Other);
          return this.ACTION(() => ({ ...spanOf(other), name: other.image }));
        },
      },
    ]),
  );

  readonly tuning: Rule<'tuning'> = this.RULE('tuning', () =>
    this.OR([
      {
        ALT: () => {
          this.CONSUME(T.Fifths);
          return { word: 'fifths' as const };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Equal);
          return { word: 'equal' as const };
        },
      },
      {
        ALT: () => {
          const pitches: PitchNode[] = [];
          this.AT_LEAST_ONE(() => {
            const pitch = this.CONSUME(T.Pitch);
            this.OPTION(() => this.CONSUME(T.Comma));
            this.ACTION(() => pitches.push(pitchOf(pitch)));
          });
          return { pitches };
        },
      },
    ]),
  );

  readonly standard: Rule<'standard'> = this.RULE('standard', () => {
    this.CONSUME(T.TuningA);
    this.CONSUME(T.Equals);
    const hz = this.CONSUME(T.Numeral);
    this.OPTION(() => this.CONSUME(T.Hertz));
    return this.ACTION(() => ({ hz: numberFrom(hz) }));
  });

  readonly hand: Rule<'hand'> = this.RULE('hand', () =>
    this.OR([
      {
        ALT: () => {
          const name = this.CONSUME(T.HandName);
          return this.ACTION(() => ({ word: keyword<'small' | 'medium' | 'large'>(name).word }));
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Child);
          const age = this.CONSUME(T.Numeral);
          return this.ACTION(() => ({ age: numberFrom(age) }));
        },
      },
      { ALT: () => ({ reaches: this.SUBRULE(this.reaches) }) },
    ]),
  );

  private readonly reaches: ParserMethod<[], ReachNode[]> = this.RULE('reaches', () => {
    const reaches: ReachNode[] = [];
    this.AT_LEAST_ONE_SEP({
      SEP: T.Comma,
      DEF: () => {
        const pair = this.CONSUME(T.Pair);
        const mm = this.CONSUME(T.Numeral);
        const unit = this.OPTION(() => this.CONSUME(T.Millimetres));
        this.ACTION(() =>
          reaches.push({
            ...around(pair, unit ?? mm),
            pair: { ...spanOf(pair), text: pair.image.toUpperCase() },
            mm: numberFrom(mm),
          }),
        );
      },
    });
    return reaches;
  });

  readonly tempo: Rule<'tempo'> = this.RULE('tempo', () => {
    const fraction = this.SUBRULE(this.fraction);
    const dot = this.OPTION(() => this.CONSUME(T.Dot));
    this.CONSUME(T.Equals);
    const bpm = this.CONSUME(T.Numeral);
    return this.ACTION(() => {
      const beat = dot ? { ...fraction, end: spanOf(dot).end, dotted: true } : fraction;
      return { beat, bpm: numberFrom(bpm) };
    });
  });

  readonly meter: Rule<'meter'> = this.RULE('meter', () => {
    const fraction = this.SUBRULE(this.fraction);
    return this.ACTION(() => ({ count: fraction.above, unit: fraction.below }));
  });

  private readonly fraction: ParserMethod<[], FractionNode> = this.RULE('fraction', () => {
    const above = this.CONSUME(T.Numeral);
    this.CONSUME(T.Slash);
    const below = this.CONSUME2(T.Numeral);
    return this.ACTION(() => ({ ...around(above, below), above: numberFrom(above), below: numberFrom(below) }));
  });

  readonly key: Rule<'key'> = this.RULE('key', () => {
    const tonic = this.CONSUME(T.KeyName);
    const mode = this.CONSUME(T.Mode);
    return this.ACTION(() => ({ tonic: keyNameOf(tonic), mode: keyword<'major' | 'minor'>(mode).word }));
  });

  readonly temperament: Rule<'temperament'> = this.RULE('temperament', () =>
    this.OR([
      {
        ALT: () => {
          this.CONSUME(T.Equal);
          return { word: 'equal' as const };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Pythagorean);
          return { word: 'pythagorean' as const };
        },
      },
      {
        ALT: () => {
          this.CONSUME(T.Just);
          const tonic = this.CONSUME(T.KeyName);
          return this.ACTION(() => ({ word: 'just' as const, tonic: keyNameOf(tonic) }));
        },
      },
    ]),
  );

  readonly level: Rule<'level'> = this.RULE('level', () => {
    const which = this.CONSUME(T.WhichLevel);
    return this.ACTION(() => ({ word: keyword<'student' | 'advanced' | 'professional'>(which).word }));
  });

  readonly style: Rule<'style'> = this.RULE('style', () => {
    const which = this.CONSUME(T.WhichStyle);
    return this.ACTION(() => ({ word: keyword<Style>(which).word }));
  });

  readonly harmonics: Rule<'harmonics'> = this.RULE('harmonics', () => {
    const which = this.CONSUME(T.WhichHarmonics);
    return this.ACTION(() => ({ word: keyword<'marked' | 'all' | 'allowed'>(which).word }));
  });

  readonly clef: Rule<'clef'> = this.RULE('clef', () => {
    const which = this.CONSUME(T.WhichClef);
    return this.ACTION(() => ({ word: keyword<'treble' | 'alto' | 'tenor' | 'bass' | 'automatic'>(which).word }));
  });

  readonly keep: Rule<'keep'> = this.RULE('keep', () => {
    const kept: KeepNode[] = [];
    this.OR([
      { ALT: () => this.CONSUME(T.Free) },
      {
        ALT: () =>
          this.AT_LEAST_ONE(() => {
            const one = this.CONSUME(T.Kept);
            this.OPTION(() => this.CONSUME(T.Comma));
            this.ACTION(() => kept.push(keptOf(one)));
          }),
      },
    ]);
    return kept;
  });

  readonly comfort: Rule<'comfort'> = this.RULE('comfort', () =>
    this.OR([
      {
        ALT: () => {
          const percent = this.CONSUME(T.Numeral);
          this.CONSUME(T.Percent);
          return this.ACTION(() => ({ percent: numberFrom(percent) }));
        },
      },
      { ALT: () => ({ reaches: this.SUBRULE(this.reaches) }) },
    ]),
  );

  readonly cents: Rule<'cents'> = this.RULE('cents', () => {
    const amount = this.CONSUME(T.Numeral);
    this.CONSUME(T.Cents);
    return this.ACTION(() => numberFrom(amount));
  });

  readonly millimetres: Rule<'millimetres'> = this.RULE('millimetres', () => {
    const amount = this.CONSUME(T.Numeral);
    this.CONSUME(T.Millimetres);
    return this.ACTION(() => numberFrom(amount));
  });

  readonly tried: Rule<'tried'> = this.RULE('tried', () => {
    const string = this.CONSUME(T.StringName);
    this.OPTION(() => this.CONSUME(T.Manner));
    const manner = this.OR([
      {
        ALT: () => {
          const stopped = this.CONSUME(T.Stopped);
          return this.ACTION(() => keyword<'stopped'>(stopped));
        },
      },
      {
        ALT: () => {
          const interval = this.CONSUME(T.Interval);
          return this.ACTION(() => keyword<TouchInterval>(interval));
        },
      },
      { ALT: () => this.SUBRULE(this.fraction) },
    ]);
    return this.ACTION(() => ({ string: stringOf(string), manner }));
  });

  readonly counts: Rule<'counts'> = this.RULE('counts', () => {
    const clean = this.CONSUME(T.Numeral);
    this.OR([{ ALT: () => this.CONSUME(T.Of) }, { ALT: () => this.CONSUME(T.Slash) }]);
    const tried = this.CONSUME2(T.Numeral);
    return this.ACTION(() => ({ clean: numberFrom(clean), tried: numberFrom(tried) }));
  });

  readonly levels: Rule<'levels'> = this.RULE('levels', () => {
    const levels: LevelNode[] = [];
    this.MANY(() =>
      this.OR([
        { ALT: () => this.CONSUME(T.Comma) },
        {
          ALT: () => {
            const code = this.CONSUME(T.AnyWord);
            const level = this.OPTION(() => this.CONSUME2(T.AnyWord));
            this.ACTION(() => levels.push({ code: wordOf(code), ...(level && { level: wordOf(level) }) }));
          },
        },
      ]),
    );
    return levels;
  });
}

let parser: ValueParser | undefined;

/** The one parser, made when it is first needed. */
export function valueParser(): ValueParser {
  parser ??= new ValueParser();
  return parser;
}
