import { sameKey } from './context';
import type { Bar, Passage } from './passage';
import { sameRests } from './rests';

/** True when two passages say the same, the events by identity. */
export function samePassage(a: Passage, b: Passage): boolean {
  return (
    a.setup === b.setup &&
    a.title === b.title &&
    a.lines.first === b.lines.first &&
    a.lines.end === b.lines.end &&
    a.events.length === b.events.length &&
    a.events.every((event, index) => event === b.events[index]) &&
    JSON.stringify([a.key, a.instructions]) === JSON.stringify([b.key, b.instructions]) &&
    a.bars.length === b.bars.length &&
    a.bars.every((bar, index) => sameBar(bar, b.bars[index] as Bar))
  );
}

function sameBar(a: Bar, b: Bar): boolean {
  return (
    a.number === b.number &&
    a.firstEvent === b.firstEvent &&
    a.endEvent === b.endEvent &&
    a.close === b.close &&
    a.open === b.open &&
    sameKey(a.key, b.key) &&
    a.clef === b.clef &&
    (a.ending === b.ending || JSON.stringify(a.ending) === JSON.stringify(b.ending)) &&
    (a.jumps === b.jumps || JSON.stringify(a.jumps) === JSON.stringify(b.jumps)) &&
    a.meter?.count === b.meter?.count &&
    a.meter?.unit === b.meter?.unit &&
    sameRests(a.rests, b.rests) &&
    a.together === b.together &&
    a.endsHairpin === b.endsHairpin &&
    a.length === b.length
  );
}
