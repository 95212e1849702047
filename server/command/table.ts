import { intervalWords, LIMITS, often } from '../scene/words';
import type { StreamedPassage, StreamedReport } from './json';
import type { Paint } from './paint';
import type { Diagnostic, EventReport, NoteReport, PassageReport } from './report';
import { visible } from './visible';

const HEADINGS = ['bar', 'note', 'how', 'string', 'fingers', 'position', 'mm', 'clean', 'why', 'findings'] as const;

/** The fingering of every passage as a table that a player can read at the stand, in a form that a terminal may be shown. */
export function solutionTable({ passages, diagnostics }: StreamedReport, paint: Paint): string {
  const found = [...diagnostics];
  return Array.from(passages, (passage) => passageTable(whole(passage), found, paint)).join('\n');
}

function whole(passage: StreamedPassage): PassageReport {
  return { ...passage, events: [...passage.events] };
}

function passageTable(passage: PassageReport, diagnostics: readonly Diagnostic[], paint: Paint): string {
  const findings = byEvent(passage, diagnostics);
  const rows = passage.events.map((event, index) => row(event, findings.get(index) ?? []).map(visible));
  const widths: number[] = HEADINGS.map(({ length }) => length);
  for (const cells of rows) {
    for (const [column, { length }] of cells.entries()) widths[column] = Math.max(widths[column]!, length);
  }
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd();
  const body = rows.map((cells, index) => (index === passage.hardest ? paint.yellow(line(cells)) : line(cells)));
  return [
    paint.bold(visible(passage.title) || 'Passage'),
    visible(summary(passage)),
    '',
    paint.dim(line(HEADINGS)),
    ...body,
    ...others(passage),
    '',
  ].join('\n');
}

/** The next best fingerings, each told by where it parts from the best. */
function others({ best = [], events }: PassageReport): string[] {
  return best.slice(1).map(({ cost, events: notes }, index) => {
    const apart = events.flatMap((event, at) => {
      if (event.notes === notes[at]) return [];
      const [chosen, other] = [notesWords(event.notes), notesWords(notes[at] ?? [])];
      return chosen === other ? [] : [`${event.bar}:${beatWords(event.beat)} ${other}`];
    });
    const told = visible(`fingering ${index + 2}, costs ${(cost - best[0]!.cost).toFixed(2)} more: ${apart.join('; ')}`);
    return index === 0 ? `\n${told}` : told;
  });
}

/** Tempo, chance of the whole, the fastest safe tempo and the hardest spot. */
function summary({ tempo, clean, ceiling, hardest, events }: PassageReport): string {
  const spot = hardest === undefined ? undefined : events[hardest];
  return [
    tempo && `${tempo.beat} = ${tempo.bpm}`,
    `clean ${often(clean)}`,
    ceiling &&
      (ceiling.limit === 'none'
        ? 'no limit from the left hand'
        : `safe up to ${ceiling.beat} = ${ceiling.bpm}, by ${LIMITS[ceiling.limit]}`),
    spot && `hardest: bar ${spot.bar}, beat ${beatWords(spot.beat)}`,
  ]
    .filter(Boolean)
    .join(' · ');
}

function row(event: EventReport, findings: readonly Diagnostic[]): readonly string[] {
  const { notes } = event;
  const each = (cell: (note: NoteReport) => string) => notes.map(cell).join(' + ');
  const chance = notes.reduce((all, note) => all * (note.speaks ?? 1), 1);
  return [
    `${event.bar}:${beatWords(event.beat)}`,
    each((note) => note.sounding),
    notes.length === 0 ? 'no way to play it' : each(manner),
    each((note) => note.string),
    each(fingers),
    event.hand?.replace(' position', '') ?? '',
    each(places),
    notes.length === 0 ? '' : often(chance),
    event.why ?? '',
    [...new Set(findings.map((finding) => finding.code))].join(', '),
  ];
}

/** `open`, `stopped`, `natural 1/3`, `fourth harmonic`. */
function manner(note: NoteReport): string {
  if (note.kind === 'natural') return `natural ${note.touch?.fraction}`;
  if (note.kind === 'artificial') return `${intervalWords(note.interval)} harmonic`;
  return note.kind;
}

/** `1-4`, `3`, `0`. */
function fingers(note: NoteReport): string {
  return [note.stop?.finger, note.touch?.finger].filter((finger) => finger !== undefined).join('-') || '0';
}

function places(note: NoteReport): string {
  const mm = [note.stop?.mm, note.touch?.mm].filter((place) => place !== undefined);
  return mm.map((place) => place.toFixed(1)).join('-') || '-';
}

/** Each finding goes to the last event that begins at or before it on its line. */
function byEvent({ events, file }: PassageReport, diagnostics: readonly Diagnostic[]): ReadonlyMap<number, Diagnostic[]> {
  const lines = new Map<number, Map<number, number>>();
  for (const [index, { line, column }] of events.entries()) {
    const last = lines.get(line) ?? new Map<number, number>();
    lines.set(line, last.set(column, index));
  }
  const found = new Map<number, Diagnostic[]>();
  for (const diagnostic of diagnostics) {
    if (diagnostic.file !== file) continue;
    let last = -1;
    for (const [column, index] of lines.get(diagnostic.line) ?? []) if (column <= diagnostic.column) last = Math.max(last, index);
    if (last === -1) continue;
    const known = found.get(last);
    if (known) known.push(diagnostic);
    else found.set(last, [diagnostic]);
  }
  return found;
}

/** `natural 1/3 on III, finger 3`; two notes joined by `with`. */
export function notesWords(notes: readonly NoteReport[]): string {
  return notes.map(noteWords).join(' with ') || 'without a fingering';
}

function noteWords(note: NoteReport): string {
  const used = fingers(note);
  const finger = note.kind === 'open' ? '' : `, ${used.includes('-') ? 'fingers' : 'finger'} ${used}`;
  return `${manner(note)} on ${note.string}${finger}`;
}

/** `7/2` as players count it: `3 1/2`. */
export function beatWords(beat: string): string {
  const [numerator = 1, denominator = 1] = beat.split('/').map(Number);
  const whole = Math.floor(numerator / denominator);
  return denominator === 1 ? beat : `${whole} ${numerator - whole * denominator}/${denominator}`;
}
