import type { SceneEvent } from '../../protocol/scene';
import { type EngravedBar, isSounding } from './engrave';
import { instructionOver, rehearsalMarkOver, tempoOver } from './labels';
import type { SystemPlan } from './plan';

/** Between lines of text over a system, px; mean width of a letter there; room that a tempo mark takes. */
const LINE = 17;
const INSTRUCTION_LETTER = 6.4;
const TEMPO_WIDTH = 72;

/** Tempo where it is new and instructions, over the system; a long instruction takes several lines, the lowest at `y`. */
export function headings(
  plan: SystemPlan,
  opens: ReadonlyMap<EngravedBar, number>,
  events: readonly SceneEvent[],
  y: number,
): { readonly markup: readonly string[]; readonly height: number } {
  const end =
    plan.left +
    Math.max(
      plan.wide,
      plan.widths.reduce((sum, width) => sum + width, 0),
    );
  let lines = 0;
  const markup = plan.bars.flatMap((engraved) => {
    const tempos = engraved.signs.filter(isSounding).filter(({ first, event }) => first && isNewTempo(events, event));
    const x = (opens.get(engraved) ?? plan.left) + (tempos.length > 0 ? TEMPO_WIDTH : 0);
    const marks = engraved.bar.marks;
    const texts = engraved.bar.instructions.flatMap((text) => wrapped(text, end - x));
    lines = Math.max(lines, Math.max(texts.length, tempos.length > 0 ? 1 : 0) + (marks.length > 0 ? 1.3 : 0));
    const first = y - (texts.length - 1) * LINE;
    return [
      ...tempos.map(({ event, note }) =>
        tempoOver((events[event] as SceneEvent).tempo, note.getNoteHeadBeginX(), Math.min(first, y)),
      ),
      ...texts.map((text, row) => instructionOver(text, x, first + row * LINE)),
      ...marks.map((mark, row) =>
        rehearsalMarkOver(
          mark,
          (opens.get(engraved) ?? plan.left) + row * 30,
          (texts.length > 0 ? first : y) - (texts.length > 0 || tempos.length > 0 ? LINE * 1.2 : 0),
        ),
      ),
    ];
  });
  return { markup, height: lines > 0 ? 8 + lines * LINE : 0 };
}

function isNewTempo(events: readonly SceneEvent[], index: number): boolean {
  const here = events[index]?.tempo;
  const before = events[index - 1]?.tempo;
  if (!here || here.assumed) return false;
  return before === undefined || before.assumed === true || before.bpm !== here.bpm || before.beat !== here.beat;
}

/** Breaks a text into lines of about this many px. */
function wrapped(text: string, width: number): readonly string[] {
  const most = Math.max(12, Math.floor(width / INSTRUCTION_LETTER));
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const line = lines.at(-1);
    if (line !== undefined && line.length + 1 + word.length <= most) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}
