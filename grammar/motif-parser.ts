import type { ParserMethod } from 'chevrotain';
import { isAmount, isKeyName, readDiatonicChange, readIntervalChange, readOnChange } from './motif-words';
import { NoteParser } from './note-parser';
import { spanOf } from './pitch-words';
import * as T from './tokens';
import type { Item, MotifChange } from './tree';
import { reportDynamic } from './unreadable';

/** The part of the grammar that reads the use of a motif with its changes. */
export abstract class MotifParser extends NoteParser {
  protected readonly motifUse: ParserMethod<[], Item | undefined> = this.RULE('motifUse', () => {
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
}
