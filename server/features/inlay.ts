import { lineAt } from '../../grammar/at';
import type { Edit, Line, Span } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { pitchName } from '../music/pitch';
import type { NoteSpec, Passage, PassageEvent } from '../passage/passage';
import type { Settings } from '../protocol/settings';
import { wayHints } from '../rules/pinning';
import { sceneNote, wayLabel } from '../scene/scene';
import { sceneBoard } from '../scene/scene-board';
import { type Fingered, fingeringMarks, type Marks } from '../scene/staff/marks';
import { printedPitch } from '../scene/words';
import type { Solution, SolvedEvent } from '../solver/solution';
import type { Way } from '../solver/way';
import { firstFrom } from './locate';
import type { SolvedReading } from './reading';
import { referenceNote } from './reference-notes';

/** A few signs shown in the text without being in it. */
export interface Inlay {
  /** Offset in the file that it stands behind. */
  readonly at: number;
  readonly label: string;
  readonly tooltip: string;
  /** Writes what it says into the text. */
  readonly edit?: Edit;
}

/** The chosen fingering behind notes, as hints of the language, and where asked for, the stopped notes that a natural harmonic can check. */
export function inlays(reading: SolvedReading, range: Span, settings: Settings): readonly Inlay[] {
  const found: Inlay[] = [];
  for (const [index, passage] of reading.resolved.passages.entries()) {
    const solution = reading.solutions[index];
    if (!solution) continue;
    for (const [line, events] of eventsByLine(reading, passage, range))
      for (const { at, edit, ...said } of lineInlays(line, solution, events, settings)) {
        const span = edit && { start: line.start + edit.span.start, end: line.start + edit.span.end };
        found.push({ at: line.start + at, ...said, ...(span && { edit: { span, text: edit.text } }) });
      }
  }
  return found.filter(({ at }) => range.start <= at && at <= range.end);
}

/**
 * The events written on each line that meets the range. Each line is marked by itself, like a line of music, so that an edit leaves
 * the hints of all other lines where they are.
 */
function eventsByLine({ tree }: SolvedReading, { events }: Passage, range: Span): ReadonlyMap<Line, readonly number[]> {
  const lines = new Map<Line, number[]>();
  for (let event = firstFrom(events, lineAt(tree, range.start)); event < events.length; event++) {
    const { source } = events[event]!;
    const line = tree.lines[source.line];
    if (!line || line.start > range.end) break;
    // A motif's notes all stand at its use; a row of fingerings there would tell nothing.
    if (source.definition) continue;
    const known = lines.get(line);
    if (known) known.push(event);
    else lines.set(line, [event]);
  }
  return lines;
}

/** What a line showed last, and what of it that went by. An edit leaves most lines, and how they are fingered, the same objects. */
const shown = new WeakMap<Line['node'], { readonly by: readonly unknown[]; readonly inlays: readonly Inlay[] }>();

/** What stands on one line; offsets count from its start. */
function lineInlays(line: Line, solution: Solution, events: readonly number[], settings: Settings): readonly Inlay[] {
  const { passage } = solution;
  const { fingeringHints, referenceNotes } = settings;
  const notes = events.flatMap((event) => [passage.events[event]!.spec, solution.events[event]]);
  const by = [passage.setup, fingeringHints, referenceNotes, ...notes];
  const known = shown.get(line.node);
  if (known?.by.length === by.length && known.by.every((one, index) => one === by[index])) return known.inlays;
  const marks = fingeringHints === 'off' ? undefined : marksOn(solution, events, fingeringHints);
  const found = events.flatMap((event): Inlay[] => {
    const marked = marks?.get(event);
    const first = passage.events[event]!.source.notes[0];
    const reference = referenceNotes && first && referenceNote(event, solution);
    return [
      ...(marked ? fingerings(solution, event, marked, fingeringHints === 'all') : []),
      ...(reference ? [{ at: first.form.end, ...reference }] : []),
    ];
  });
  shown.set(line.node, { by, inlays: found });
  return found;
}

function marksOn(
  { passage, events: solved }: Solution,
  events: readonly number[],
  marking: 'changes' | 'all',
): ReadonlyMap<number, Marks> {
  const fingered = events.flatMap((event): (Fingered & { readonly event: number })[] => {
    const fingering = solved[event]?.fingering;
    if (!fingering) return [];
    const { held } = (passage.events[event] as PassageEvent).spec;
    return [{ event, notes: fingering.ways.map((way, note) => sceneNote(way, isHeld(held, note))), barred: fingering.barred }];
  });
  const marks = fingeringMarks(fingered, sceneBoard(passage.setup.instrument), marking);
  return new Map([...marks].map(([{ event }, told]) => [event, told]));
}

function fingerings({ passage, events }: Solution, event: number, marks: Marks, all: boolean): readonly Inlay[] {
  const { source, spec } = passage.events[event] as PassageEvent;
  const solved = events[event] as SolvedEvent;
  return source.notes.flatMap((place, note) => {
    const way = solved.fingering.ways[note];
    const asked = spec.notes[note];
    // Hints already say it in the text.
    if (!way || !asked || place.hints || isHeld(spec.held, note)) return [];
    const label = hintShown(way, asked, { string: all || marks.strings !== undefined, fingers: marks.fingers.length > 0 });
    if (label === '') return [];
    const told = { way: wayLabel(way), pitch: printedPitch(pitchName(way.sounding)) };
    const { end } = place.span;
    return [
      {
        at: place.form.end,
        label,
        tooltip: solved.fingering.barred
          ? t('{way}, one finger over both strings, sounds {pitch}. Double-click to write it into the text.', told)
          : t('{way}, sounds {pitch}. Double-click to write it into the text.', told),
        edit: { span: { start: end, end }, text: ` [${label}]` },
      },
    ];
  });
}

/** `III at 1/4 2`, `III fourth 1-4`, `II 3`, `II`, `3`: as it would be written, what is told of it only. */
function hintShown(way: Way, asked: NoteSpec, told: { readonly string: boolean; readonly fingers: boolean }): string {
  if (!told.fingers) return told.string ? way.stringName : '';
  // A point of division says that the harmonic is a natural one.
  const [string, ...manner] = wayHints(way, asked)
    .split(' ')
    .filter((word) => word !== 'natural')
    .map((word) => (word === 'open' ? '0' : word));
  // Where a harmonic is touched means nothing without its string.
  const words = told.string || way.touch ? [string, ...manner] : manner;
  return words.join(' ');
}

function isHeld(held: readonly (readonly [number, number])[], note: number): boolean {
  return held.some(([, here]) => here === note);
}
