import type { Breaking } from '../../../grammar/marks';
import { BREAKINGS } from '../../../grammar/marks';
import { bracketsOf } from '../../music/chord-strokes';
import { attribute, type Element } from './element';
import { type Xml, xmlElement } from './xml';

/**
 * The ends of brackets that stand at a note of a chord: MusicXML 4.0 has `non-arpeggiate` for notes that are struck together, so what
 * the bow takes at once is in one bracket.
 */
export function bracketEnds(breaking: Breaking | undefined, note: number): readonly Xml[] {
  const brackets = breaking ? bracketsOf(breaking) : [];
  return brackets.flatMap(([low, high], at) => [
    ...(note === low ? [bracketEnd('bottom', at)] : []),
    ...(note === high ? [bracketEnd('top', at)] : []),
  ]);
}

function bracketEnd(type: 'bottom' | 'top', at: number): Xml {
  return xmlElement('non-arpeggiate', { type, number: String(at + 1) });
}

/** `bottom 1`, from the end of a bracket. */
export function bracketEndOf(mark: Element): string {
  return `${attribute(mark, 'type')} ${attribute(mark, 'number') ?? '1'}`;
}

/** The hint that the brackets of a chord say, given the ends at each of its notes from the lowest; undefined for other brackets. */
export function breakingSaid(ends: readonly (readonly string[])[]): Breaking | undefined {
  const said = spans(ends);
  return BREAKINGS.find((breaking) => {
    const notes = breaking === '2+2' ? 4 : 3;
    return (
      notes === ends.length &&
      bracketsOf(breaking)
        .map(([low, high]) => `${low}-${high}`)
        .join() === said
    );
  });
}

/** `0-1,2-3`: from where to where each bracket reaches. */
function spans(ends: readonly (readonly string[])[]): string {
  const at = (end: string) => ends.findIndex((some) => some.includes(end));
  return ends
    .flatMap((some, low) =>
      some.flatMap((end) => (end.startsWith('bottom ') ? [`${low}-${at(end.replace('bottom', 'top'))}`] : [])),
    )
    .join();
}
