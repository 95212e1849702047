import { absolute, pathAt } from '../../grammar/at';
import type { Span, Tree } from '../../grammar/tree';
import type { Passage } from '../passage/passage';
import type { Settings } from '../protocol/settings';
import type { Edit } from '../rules/rule';
import { percent } from '../scene/words';
import { ceiling } from '../solver/ceiling';
import type { Action } from './actions';
import { passageOn } from './locate';
import { lineBreak } from './problem-actions';
import type { SolvedReading } from './reading';

/** Slows a passage down to where it comes out clean as often as the settings ask. */
export function tempoActions(reading: SolvedReading, span: Span, { safeChance }: Settings): readonly Action[] {
  const spot = pathAt(reading.tree, span.start);
  const { kind } = spot.line.node;
  const asked = kind === 'passage' || kind === 'music' || (kind === 'setting' && spot.line.node.key.text === 'tempo');
  const solution = asked ? reading.solutions[passageOn(reading.resolved.passages, spot.index)] : undefined;
  const written = solution?.passage.events[0]?.tempo;
  if (!solution || !written || solution.clean >= safeChance) return [];
  const safe = ceiling(solution, safeChance);
  if (!safe || safe.bpm >= written.bpm) return [];
  const tempo = `${safe.beat.toFraction()} = ${safe.bpm}`;
  return [
    {
      title: `Lower the tempo to ${tempo}, clean ${percent(safeChance)} of the time`,
      kind: 'rewrite',
      edits: tempoEdits(reading.tree, solution.passage, safe.bpm / written.bpm, tempo),
    },
  ];
}

/** All tempos of the passage slower by the same measure; where it has none of its own, the first one written into it. */
function tempoEdits(tree: Tree, { lines, title }: Passage, times: number, tempo: string): readonly Edit[] {
  const own: Edit[] = [];
  for (const line of tree.lines.slice(lines.first, lines.end)) {
    if (line.node.kind !== 'setting' || line.node.key.text !== 'tempo') continue;
    const { value } = line.node;
    const number = /\d+(?:\.\d+)?\s*$/.exec(value.text);
    if (!number) continue;
    const start = value.start + number.index;
    const slower = Math.max(1, Math.floor(Number(number[0]) * times + 1e-9));
    own.push({ span: absolute(line, { start, end: value.end }), text: String(slower) });
  }
  if (own.length > 0) return own;
  const head = tree.lines[lines.first];
  if (!head) return [];
  const named = head.node.kind === 'passage' || title !== '';
  const at = named ? head.end : head.start;
  const text = named ? `${lineBreak(tree)}tempo: ${tempo}` : `tempo: ${tempo}${lineBreak(tree)}`;
  return [{ span: { start: at, end: at }, text }];
}
