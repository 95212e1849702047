import Fraction from 'fraction.js';
import { attribute, child, children, type Element, textOf } from './element';
import { JUMP_SOUNDS } from './signs';
import { exact, timeOf } from './time';

/** The measures of a part. */
export interface PartElements {
  readonly measures: readonly Element[];
}

/** A direction, sound or bar line that a score prints once for all parts, in its place in the bar. */
export interface ScoreMark {
  readonly element: Element;
  readonly onset: Fraction;
}

/** What a score as a whole says in a bar, each of which is taken from one part. */
type Sort = 'tempo' | 'rehearsal' | 'jump' | 'left' | 'right';

const ZERO = new Fraction(0);

/**
 * By bar of the part, what stands over the system in another part alone: tempo, rehearsal marks, jumps, repeats and
 * endings. Of several parts that say the same kind of thing in a bar the first one counts.
 */
export function scoreMarks(parts: readonly PartElements[], own: PartElements): readonly (readonly ScoreMark[])[] {
  const found: ScoreMark[][] = own.measures.map(() => []);
  const known = own.measures.map((measure) => new Set(measure.children.flatMap((e) => sortOf(e) ?? [])));
  for (const part of parts) {
    if (part === own) continue;
    let divisions = 1;
    for (const [i, measure] of part.measures.entries()) {
      const into = found[i];
      if (!into) break;
      const own = known[i] as Set<Sort>;
      const news = new Map<Element, Sort>();
      for (const element of measure.children) {
        if (element.name === 'attributes') divisions = Number(textOf(element, 'divisions') ?? divisions) || divisions;
        const sort = sortOf(element);
        if (sort && !own.has(sort)) news.set(element, sort);
      }
      if (news.size === 0) continue;
      into.push(...placed(measure, [...news.keys()], divisions));
      for (const sort of news.values()) own.add(sort);
    }
  }
  return found;
}

function sortOf(element: Element): Sort | undefined {
  if (element.name === 'barline') {
    if (!element.children.some((c) => c.name === 'repeat' || c.name === 'ending')) return undefined;
    return attribute(element, 'location') === 'left' ? 'left' : 'right';
  }
  if (element.name !== 'direction' && element.name !== 'sound') return undefined;
  const sound = element.name === 'sound' ? element : child(element, 'sound');
  const types = children(element, 'direction-type').flatMap((type) => type.children);
  if (
    (sound && [...JUMP_SOUNDS.keys()].some((jump) => attribute(sound, jump) !== undefined)) ||
    types.some((t) => JUMP_SOUNDS.has(t.name))
  )
    return 'jump';
  const system = attribute(element, 'system');
  if (types.some((t) => t.name === 'metronome') || (sound && attribute(sound, 'tempo') !== undefined)) return 'tempo';
  if (types.some((t) => t.name === 'rehearsal')) return 'rehearsal';
  return (system === 'only-top' || system === 'also-top') && types.some((t) => t.name === 'words') ? 'tempo' : undefined;
}

/** Each mark where it stands, without what belongs to its own part alone. */
function placed(measure: Element, marks: readonly Element[], divisions: number): readonly ScoreMark[] {
  let at = ZERO;
  return measure.children.flatMap((element): readonly ScoreMark[] => {
    if (marks.includes(element)) return [{ element: withoutOwn(element), onset: at }];
    if (element.name === 'backup') at = at.sub(timeOf(element, divisions));
    else if (element.name === 'forward' || (element.name === 'note' && !child(element, 'chord') && !child(element, 'grace')))
      at = at.add(exact(textOf(element, 'duration')) ? timeOf(element, divisions) : ZERO);
    return [];
  });
}

const OF_THE_SYSTEM = new Set(['metronome', 'words', 'rehearsal', 'segno', 'coda']);

function withoutOwn(direction: Element): Element {
  if (direction.name !== 'direction') return direction;
  const kept = direction.children.flatMap((c) => {
    if (c.name !== 'direction-type') return c.name === 'sound' ? [c] : [];
    const types = c.children.filter((t) => OF_THE_SYSTEM.has(t.name));
    return types.length > 0 ? [{ ...c, children: types }] : [];
  });
  return { ...direction, children: kept };
}
