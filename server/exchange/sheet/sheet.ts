import { later, t } from '../../l10n/translate';
import type { ScenePassage } from '../../protocol/scene';
import type { Marking } from '../../scene/staff/marks';
import { drawSystems, type StaffDrawing } from '../../scene/staff/staff';
import { PAIN } from '../../scene/words';
import { type Diagram, type DiagramChoice, diagramsOf } from './diagrams';
import { MARGIN, PAPERS, type Paper, type PaperName, SCALE } from './paper';

export interface SheetChoice {
  readonly paper: PaperName;
  /** Heading of the whole sheet; the file's own title, or that of its only passage, unless set. */
  readonly title?: string;
  /** Lines for the student under the heading. */
  readonly remarks?: readonly string[];
  readonly diagrams: DiagramChoice;
  /** Which fingerings are printed: where the hand does something new unless set. */
  readonly marking?: Marking;
  /** Of Passagework, printed at the foot. */
  readonly version: string;
}

/** What a sheet shows, before it is laid out as pages or as a web page. */
export interface Sheet {
  readonly paper: Paper;
  readonly title: string;
  readonly remarks: readonly string[];
  readonly parts: readonly SheetPart[];
  readonly footer: string;
  /** Notes that diagrams were asked for and that no passage has, as they were named. */
  readonly unknown: readonly string[];
}

/** One passage. */
export interface SheetPart {
  /** Empty where the sheet's own title says it. */
  readonly heading: string;
  readonly facts: string;
  /** Notes that can't be played, each with why. */
  readonly problems: readonly string[];
  readonly systems: readonly StaffDrawing[];
  /** In rows to one scale. */
  readonly diagrams: readonly (readonly Diagram[])[];
  /** Empty where an earlier part says it already. */
  readonly caution: string;
}

/** The usual caution, where no passage of the sheet has a stronger one of its own. */
const CAUTION = later('Let the hand go when it tires. {pain}');

/** A sheet for students with one or many solved passages. Equal input gives an equal sheet. */
export function buildSheet(passages: readonly ScenePassage[], choice: SheetChoice): Sheet {
  const paper = PAPERS[choice.paper];
  const title = choice.title || (passages.length === 1 && passages[0]?.title) || t('Passages');
  const chosen = passages.map((passage) => diagramsOf(passage, choice.diagrams));
  const usual = passages.some(({ caution }) => caution !== undefined) ? '' : t(CAUTION, { pain: t(PAIN) });
  const cautions = passages.map(({ caution }) => caution ?? usual);
  const width = Math.floor((paper.width - 2 * MARGIN) / SCALE);
  return {
    paper,
    title,
    remarks: choice.remarks ?? [],
    parts: passages.map((passage, i) => ({
      heading: passage.title === title ? '' : passage.title || t('Passage {number}', { number: i + 1 }),
      facts: factsOf(passage),
      problems: passage.events.flatMap((e) =>
        e.problem === undefined ? [] : [t('Bar {bar}, beat {beat}: {problem}', { bar: e.bar, beat: e.beat, problem: e.problem })],
      ),
      systems: drawSystems(passage, { width, ...(choice.marking && { marking: choice.marking }) }),
      diagrams: chosen[i]?.rows ?? [],
      caution: cautions.indexOf(cautions[i] ?? '') === i ? (cautions[i] ?? '') : '',
    })),
    footer: t('Made with Passagework {version}', { version: choice.version }),
    unknown:
      chosen.length === 0 ? [] : (chosen[0]?.unknown ?? []).filter((name) => chosen.every((c) => c.unknown.includes(name))),
  };
}

function factsOf({ board, hand, run }: ScenePassage): string {
  return t('{instrument}, strings of {length} mm · {hand} hand · {run}', {
    instrument: board.name,
    length: Math.round(board.length),
    hand,
    run,
  });
}
