import { filled, outlined } from '../look';
import { num, tag } from '../svg';
import { instructionOver } from './labels';
import { JUMP_SIGNS, PRINTED_WORDS } from './mark-signs';
import { sign } from './outline-context';
import type { SystemPlan } from './plan';

/** Height of a row of brackets and signs over the bars, px. */
const ROW = 20;
/** Mean width of a letter there, px. */
const LETTER = 6.4;

/** Over the bars: the brackets of endings, the signs at a bar's start and the words at its end; `y` is the lowest line of the row. */
export function barSigns(plan: SystemPlan, y: number): { readonly markup: string; readonly height: number } {
  let x = plan.left;
  const parts = plan.bars.flatMap(({ bar }, index) => {
    const from = x;
    x += plan.widths[index] as number;
    const [before, after] = [plan.bars[index - 1]?.bar.ending, plan.bars[index + 1]?.bar.ending];
    const bracket = bar.ending
      ? [ending(bar.ending, from + 2, x - 2, y, { begins: before !== bar.ending, ends: after !== bar.ending })]
      : [];
    const jumps = bar.jumps.map((jump) => {
      const code = JUMP_SIGNS[jump];
      if (code !== undefined) return sign(code, from + 4, y, 26);
      const words = PRINTED_WORDS[jump] ?? jump;
      return instructionOver(words, x - words.length * LETTER - 4, y);
    });
    return [...bracket, ...jumps];
  });
  return { markup: parts.join(''), height: parts.length > 0 ? ROW : 0 };
}

function ending(
  times: readonly number[],
  from: number,
  to: number,
  y: number,
  { begins, ends }: { readonly begins: boolean; readonly ends: boolean },
): string {
  const top = y - 12;
  const d = `${begins ? `M${num(from)} ${num(y)}V${num(top)}` : `M${num(from - 4)} ${num(top)}`}H${num(to)}${ends ? `V${num(y)}` : ''}`;
  const label = begins ? tag('text', { x: from + 4, y: y - 1, ...filled('ink'), 'font-size': 11 }, `${times.join(', ')}.`) : '';
  return tag('path', { ...outlined('ink', 1, 'pw-ending'), d }) + label;
}
