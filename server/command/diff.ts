import { diffArrays } from 'diff';
import { pitchName } from '../music/pitch';
import type { Asked } from '../passage/passage';
import { percent } from '../scene/words';
import { EXIT } from './cannot-run';
import { readInput } from './inputs';
import { reportOf } from './json';
import { type Player, type PlayerOptions, playerFrom } from './options';
import type { EventReport, PassageReport } from './report';
import { study } from './study';
import { beatWords, notesWords } from './table';

/** A passage of one of the two versions: as reported, and for every event what the text asks for. */
export interface Version {
  readonly report: PassageReport;
  readonly asked: readonly string[];
}

/** `passagework diff A B`: how the fingering changed, in words. Exit code 1 when it did. */
export function diff(before: string, after: string, options: PlayerOptions): number {
  const player = playerFrom(options);
  const told = changes(versionsOf(before, player), versionsOf(after, player));
  console.log(told.length === 0 ? 'The fingering is the same.' : told.join('\n'));
  return told.length === 0 ? EXIT.clean : EXIT.findings;
}

function versionsOf(name: string, player: Player): readonly Version[] {
  const studied = study(readInput(name), player, name);
  return reportOf(studied, { chance: player.chance }).passages.map((report, index) => ({
    report,
    asked: studied.solutions[index]!.passage.events.map(({ spec }) => spec.notes.map(({ asked }) => askedWords(asked)).join('+')),
  }));
}

function askedWords(asked: Asked): string {
  if (asked.kind === 'sounding') return pitchName(asked.pitch);
  return `${asked.kind === 'artificial' ? pitchName(asked.stop) : ''}<>${pitchName(asked.touch)}`;
}

/** Passages of the same title belong together; those without one, by their order among such. */
export function changes(before: readonly Version[], after: readonly Version[]): readonly string[] {
  const old = new Map(before.map((version, index) => [keyOf(version, index), version]));
  const now = new Map(after.map((version, index) => [keyOf(version, index), version]));
  const gone = [...old].filter(([key]) => !now.has(key)).map(([, version]) => `${nameOf(version)}: taken out.`);
  const kept = [...now].flatMap(([key, version]) => {
    const earlier = old.get(key);
    return earlier ? passageChanges(earlier, version) : [`${nameOf(version)}: new.`];
  });
  return [...gone, ...kept];
}

/** One event of one version: what it is called by, and how it is played. */
interface Played {
  readonly event: EventReport;
  /** What sounds; where nothing can, what was asked for. */
  readonly sound: string;
  readonly how: string;
}

function played({ report, asked }: Version): Played[] {
  return report.events.map((event, index) => ({
    event,
    sound: event.notes.map((note) => note.sounding).join('+') || (asked[index] ?? ''),
    how: notesWords(event.notes),
  }));
}

function passageChanges(before: Version, after: Version): string[] {
  const lines: string[] = [];
  const [old, now] = [played(before), played(after)];
  let [at, to] = [0, 0];
  for (const { value, added, removed } of diffArrays(old, now, { comparator: sameDemand })) {
    for (let i = 0; i < value.length; i++) {
      if (added) lines.push(`${placeOf(now[to]!)} is new: ${now[to]!.how}.`);
      else if (removed) lines.push(`${placeOf(old[at]!)} is gone.`);
      else if (old[at]!.how !== now[to]!.how) lines.push(`${placeOf(now[to]!)} was ${old[at]!.how}; now ${now[to]!.how}.`);
      if (!added) at++;
      if (!removed) to++;
    }
  }
  const [was, is] = [before.report, after.report];
  if (percent(was.clean) !== percent(is.clean))
    lines.push(`chance of a clean run: ${percent(was.clean)}, now ${percent(is.clean)}.`);
  if (tempoOf(was) !== tempoOf(is)) lines.push(`fastest safe tempo: ${tempoOf(was)}, now ${tempoOf(is)}.`);
  return lines.map((line) => `${nameOf(after)}, ${line}`);
}

/** The same notes asked for equally long: what can be compared, whatever bar it has moved to. */
function sameDemand(a: Played, b: Played): boolean {
  return a.event.duration === b.event.duration && a.sound === b.sound;
}

function placeOf({ event, sound }: Played): string {
  return `bar ${event.bar}, beat ${beatWords(event.beat)}: ${sound}`;
}

function tempoOf({ ceiling }: PassageReport): string {
  return ceiling ? `${ceiling.beat} = ${ceiling.bpm}` : 'none';
}

function keyOf({ report }: Version, index: number): string {
  return report.title || `\n${index}`;
}

function nameOf({ report }: Version): string {
  return report.title || 'Passage';
}
