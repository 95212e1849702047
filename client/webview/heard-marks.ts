import { t } from '../../server/l10n/translate';
import type { HeardMark, HeardRun } from '../../server/protocol/heard';
import { gravest, VERDICTS } from '../../server/scene/heard/verdicts';
import { filled } from '../../server/scene/look';
import { escaped, tag } from '../../server/scene/svg';

/** Of every event what a run heard of it. */
export type HeardEvents = ReadonlyMap<number, readonly HeardMark[]>;

export function byEvent(run: HeardRun | undefined): HeardEvents {
  const events = new Map<number, HeardMark[]>();
  for (const mark of run?.marks ?? []) events.set(mark.event, [...(events.get(mark.event) ?? []), mark]);
  return events;
}

/** Of the sign and of the word under it, px. */
const SIZE = { sign: 11, word: 9 } as const;

/** Marks a note of the staff with its verdict: a sign, and a word where it did not simply speak. */
export function markHeard(group: SVGElement, marks: readonly HeardMark[] | undefined): void {
  group.querySelector('.pw-heard')?.remove();
  const mark = marks && gravest(marks);
  const box = group.querySelector('.pw-hit');
  if (!mark || !box) return;
  const { mark: sign, brief, role } = VERDICTS[mark.verdict];
  const number = (name: string) => Number(box.getAttribute(name));
  const x = number('x') + number('width') / 2;
  const y = number('y') + number('height') - 3;
  const text = (up: number, size: number, words: string) =>
    tag('text', { x, y: y - up, ...filled(role), 'font-size': size, 'text-anchor': 'middle' }, escaped(words));
  const drawn = document.createElementNS('http://www.w3.org/2000/svg', 'g');
  drawn.setAttribute('class', 'pw-heard');
  drawn.innerHTML = text(SIZE.word, SIZE.sign, sign) + (mark.verdict === 'spoke' ? '' : text(0, SIZE.word, t(brief)));
  group.append(drawn);
}
