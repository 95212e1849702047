import { isStress } from '../../../grammar/marks';
import { tremoloStrokes, UNMEASURED } from '../../music/tremolo';
import { BY_TURNS } from '../../passage/ornament';
import type { Mark, PassageEvent } from '../../passage/passage';
import { MARK_ELEMENTS, type MarkElement } from './signs';
import { text, type Xml, xmlElement } from './xml';

/** What is printed over an event, in the places where MusicXML keeps it. */
export interface PrintedMarks {
  readonly technical: readonly Xml[];
  /** A phrase mark is a slur of a number of its own. */
  readonly phrases: readonly Xml[];
  readonly others: readonly Xml[];
}

/** An event, or a rest, which has no more than marks. */
type Marked = Pick<PassageEvent, 'marks'> & Partial<Pick<PassageEvent, 'duration' | 'spec'>>;

export function printedMarks(event: Marked, before?: PassageEvent, after?: PassageEvent): PrintedMarks {
  const marks = event.marks ?? [];
  const found = marks.flatMap((mark) => {
    if (mark.word === BY_TURNS) return byTurns(event, mark, after);
    const place = placeOf(mark);
    if (!place) return [];
    const found = { ...place, xml: markElement(event, mark, place.name) };
    return place.accidental ? [found, { ...place, xml: text('accidental-mark', place.accidental, {}) }] : [found];
  });
  const group = (name: NonNullable<MarkElement['group']>) => found.filter((f) => f.group === name).map(({ xml }) => xml);
  const grouped = (['ornaments', 'articulations'] as const).flatMap((name) => {
    const own = group(name);
    return own.length > 0 ? [xmlElement(name, {}, ...own)] : [];
  });
  return {
    technical: group('technical'),
    phrases: marks.flatMap((mark) => (mark.word === 'phrase' ? phraseEnds(mark, before, after) : [])),
    others: [...grouped, ...found.filter((f) => f.group === undefined).map(({ xml }) => xml)],
  };
}

function placeOf({ word }: Mark): MarkElement | undefined {
  return word === 'grace' || word === 'phrase' || word === BY_TURNS || isStress(word) ? undefined : MARK_ELEMENTS[word];
}

/** One end of a tremolo between two notes. */
function byTurns(
  { spec, duration }: Marked,
  { value }: Mark,
  after: PassageEvent | undefined,
): readonly (MarkElement & { readonly xml: Xml })[] {
  const type = spec?.alternates ? 'stop' : after?.spec.alternates ? 'start' : undefined;
  if (!type) return [];
  const strokes = value && duration ? tremoloStrokes(duration.mul(2), value) : UNMEASURED;
  return [{ ...MARK_ELEMENTS.tremolo, xml: text('tremolo', strokes, { type }) }];
}

function markElement({ duration }: Marked, { word, value }: Mark, name: string): Xml {
  if (word !== 'tremolo') return xmlElement(name, {});
  return text(name, value && duration ? tremoloStrokes(duration, value) : UNMEASURED, { type: 'single' });
}

function phraseEnds(mark: Mark, before: PassageEvent | undefined, after: PassageEvent | undefined): readonly Xml[] {
  const end = (type: 'start' | 'stop') => xmlElement('slur', { type, number: '2' });
  const [begins, stops] = [!before?.marks?.includes(mark), !after?.marks?.includes(mark)];
  // A phrase of one note is none.
  if (begins && stops) return [];
  return [...(begins ? [end('start')] : []), ...(stops ? [end('stop')] : [])];
}
