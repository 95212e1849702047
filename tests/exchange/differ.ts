import Fraction from 'fraction.js';
import { attribute, child, children, type Element, parseXml, textOf } from '../../server/exchange/musicxml/element';

/** What one MusicXML score has and another has not, each as a line: `+` only in the second, `-` only in the first. */
export function scoreDifferences(first: string, second: string): readonly string[] {
  const [a, b] = [factsOf(first), factsOf(second)].map(counted) as [Map<string, number>, Map<string, number>];
  const only = (these: Map<string, number>, those: Map<string, number>, sign: string) =>
    [...these].flatMap(([fact, count]) =>
      Array.from({ length: Math.max(0, count - (those.get(fact) ?? 0)) }, () => `${sign} ${fact}`),
    );
  return [...only(a, b, '-'), ...only(b, a, '+')].sort();
}

function counted(facts: readonly string[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const fact of facts) counts.set(fact, (counts.get(fact) ?? 0) + 1);
  return counts;
}

/** Said in another way by different programs, or following from the rest. */
const LAYOUT = new Set(
  'rest pitch chord grace cue duration tie voice type dot accidental time-modification stem staff beam notehead notations instrument tied tuplet'.split(
    ' ',
  ),
);

/** All that the first part of a score says, in the order of the music: `bar 2 at 1/4: staccato`. Time is in whole notes. */
export function factsOf(xml: string): readonly string[] {
  const part = child(parseXml(xml), 'part');
  const facts: string[] = [];
  const open = new Map<string, string>();
  let divisions = 1;
  let attributes: Readonly<Record<string, string>> = {};
  for (const [index, measure] of children(part, 'measure').entries()) {
    let at = new Fraction(0);
    let onset = at;
    let graces = 0;
    const say = (fact: string, when = at) => facts.push(`bar ${index + 1} at ${when.toFraction()}: ${fact}`);
    const pair = (kind: string, type: string | undefined, key: string, when = at) => {
      const here = `bar ${index + 1} at ${when.toFraction()}${graces > 0 ? ` grace ${graces}` : ''}`;
      if (type === 'start') open.set(key, here);
      else if (type === 'stop') facts.push(`${kind} from ${open.get(key)} to ${here}`);
    };
    for (const element of measure.children) {
      switch (element.name) {
        case 'attributes': {
          divisions = Number(textOf(element, 'divisions') ?? divisions);
          const now = {
            ...attributes,
            ...Object.fromEntries(
              ['key', 'time', 'clef'].flatMap((name) => {
                const found = child(element, name);
                return found ? [[name, found.children.map((c) => `${c.name} ${c.text}`).join(', ')]] : [];
              }),
            ),
          };
          for (const style of children(element, 'measure-style').flatMap((s) => s.children)) say(told(style));
          for (const [name, value] of Object.entries(now)) if (attributes[name] !== value) say(`${name} ${value}`);
          attributes = now;
          break;
        }
        case 'note': {
          const grace = child(element, 'grace');
          const length = grace ? new Fraction(0) : new Fraction(textOf(element, 'duration') ?? '0').div(4 * divisions);
          if (!child(element, 'chord')) {
            onset = at;
            graces = grace ? graces + 1 : 0;
          }
          const pitch = child(element, 'pitch');
          const name = pitch?.children.map((c) => c.text).join(' ');
          const place = grace ? `grace ${graces} ` : '';
          const value = grace ? textOf(element, 'type') : length.toFraction();
          const head = textOf(element, 'notehead');
          say(`${place}${name ?? 'rest'} ${value}${head && head !== 'normal' ? ` ${head}` : ''}`, onset);
          for (const tie of children(element, 'tie')) say(`${place}${name} tie ${attribute(tie, 'type')}`, onset);
          for (const mark of children(element, 'notations').flatMap((n) => n.children)) {
            const type = attribute(mark, 'type');
            if (mark.name === 'slur') pair('slur', type, `slur ${attribute(mark, 'number') ?? '1'}`, onset);
            else if (mark.name === 'slide' || mark.name === 'glissando') pair('slide', type, 'slide', onset);
            else if (['articulations', 'ornaments', 'technical', 'dynamics'].includes(mark.name)) {
              for (const inner of mark.children) say(`${place}${told(inner)}`, onset);
            } else if (!LAYOUT.has(mark.name)) say(`${place}${mark.name === 'non-arpeggiate' ? told(mark) : mark.name}`, onset);
          }
          if (!grace && !child(element, 'chord')) at = at.add(length);
          break;
        }
        case 'backup':
        case 'forward': {
          const by = new Fraction(textOf(element, 'duration') ?? '0').div(4 * divisions);
          at = element.name === 'backup' ? at.sub(by) : at.add(by);
          break;
        }
        case 'direction': {
          // Where it is printed, which may be beside where it stands in the file.
          const place = at.add(new Fraction(textOf(element, 'offset') ?? '0').div(4 * divisions));
          for (const mark of children(element, 'direction-type').flatMap((d) => d.children)) {
            const type = attribute(mark, 'type');
            if (mark.name === 'wedge')
              pair(`${type === 'stop' ? '' : type}hairpin`, type === 'stop' ? 'stop' : 'start', 'wedge', place);
            else if (mark.name === 'dynamics') for (const sign of mark.children) say(`dynamic ${sign.name}`, place);
            else if (mark.name === 'metronome') say(`tempo ${mark.children.map((c) => c.text || c.name).join(' ')}`, place);
            else say(told(mark), place);
          }
          for (const [name, value] of Object.entries(child(element, 'sound')?.attributes ?? {}))
            if (name !== 'tempo') say(`sound ${name} ${value}`);
          break;
        }
        case 'barline': {
          const place = attribute(element, 'location') ?? 'right';
          const style = textOf(element, 'bar-style');
          if (style && style !== 'regular') say(`${place} bar line ${style}`, new Fraction(0));
          for (const mark of element.children) {
            if (mark.name !== 'bar-style') say(`${place} ${told(mark)}`, new Fraction(0));
          }
        }
      }
    }
  }
  return facts;
}

/** An element with what it says: `fingering 3`, `ending number 1 type start`. */
function told({ name, text, attributes, children: inner }: Element): string {
  const own = Object.entries(attributes)
    .filter(([key]) => !['default-x', 'default-y', 'placement', 'font-style', 'print-object'].includes(key))
    .map(([key, value]) => `${key} ${value}`);
  return [name, text, ...own, ...inner.map((c) => c.name)].filter((word) => word !== '').join(' ');
}
