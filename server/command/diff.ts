import { diffArrays } from 'diff';
import { pitchName } from '../music/pitch';
import type { Asked } from '../passage/passage';
import { often } from '../scene/words';
import { type AnswerOptions, answerTo, checkAnswer } from './answer';
import { EXIT } from './cannot-run';
import { findInputs, readInput } from './inputs';
import { reportOf } from './json';
import { jsonText } from './json-text';
import { formatFrom, type Player, type PlayerOptions, playerFrom } from './options';
import { everythingRead } from './output';
import type { EventReport, PassageReport } from './report';
import { study } from './study';
import { beatWords, notesWords } from './table';
import { visible } from './visible';

/** A passage of one of the two versions: as reported, and for every event what the text asks for. */
export interface Version {
  readonly report: PassageReport;
  readonly asked: readonly string[];
}

/** With `--format json`: one object; absent members are left out. */
export interface DiffReport {
  readonly changes: readonly Change[];
}

/** One thing that is not as it was, in the order of the passages. */
export interface Change {
  readonly passage: string;
  readonly kind: 'passage-new' | 'passage-gone' | 'note-new' | 'note-gone' | 'fingering' | 'chance' | 'tempo';
  /** Of a note: where it is now, or was. */
  readonly bar?: number;
  readonly beat?: string;
  readonly note?: string;
  readonly before?: string;
  readonly after?: string;
}

export interface DiffOptions extends PlayerOptions, AnswerOptions {
  readonly format: string;
}

/** `passagework diff A B`: how the fingering changed, in words or as JSON. Exit code 1 when it did. */
export async function runDiff(before: string, after: string, options: DiffOptions): Promise<number> {
  const format = formatFrom(options.format, ['text', 'json']);
  const player = playerFrom(options);
  const [old = '', now = ''] = [...(await findInputs([before])), ...(await findInputs([after]))];
  checkAnswer(options, everythingRead([old, now], player.player));
  const found = changes(versionsOf(old, player), versionsOf(now, player));
  const words = () => (found.length === 0 ? 'The fingering is the same.' : found.map(changeWords).map(visible).join('\n'));
  answerTo(options, format === 'json' ? jsonText({ changes: found } satisfies DiffReport) : words());
  return found.length === 0 ? EXIT.clean : EXIT.findings;
}

function versionsOf(name: string, player: Player): readonly Version[] {
  const studied = study(readInput(name), player, name);
  return reportOf(studied, { chance: studied.settings.safeChance, alternatives: false }).passages.map((report, index) => ({
    report,
    asked: studied.solutions[index]!.passage.events.map(({ spec }) => spec.notes.map(({ asked }) => askedWords(asked)).join('+')),
  }));
}

function askedWords(asked: Asked): string {
  if (asked.kind === 'sounding') return pitchName(asked.pitch);
  return `${asked.kind === 'artificial' ? pitchName(asked.stop) : ''}<>${pitchName(asked.touch)}`;
}

/** Passages of the same title belong together; those without one, by their order among such. */
export function changes(before: readonly Version[], after: readonly Version[]): readonly Change[] {
  const old = new Map(before.map((version, index) => [keyOf(version, index), version]));
  const now = new Map(after.map((version, index) => [keyOf(version, index), version]));
  const gone = [...old].filter(([key]) => !now.has(key));
  const kept = [...now].flatMap(([key, version]): readonly Change[] => {
    const earlier = old.get(key);
    return earlier ? passageChanges(earlier, version) : [{ passage: nameOf(version), kind: 'passage-new' }];
  });
  return [...gone.map(([, version]): Change => ({ passage: nameOf(version), kind: 'passage-gone' })), ...kept];
}

/** A change as a sentence. */
export function changeWords({ passage, kind, bar, beat = '', note, before = '', after = '' }: Change): string {
  const place = `${passage}, bar ${bar}, beat ${beatWords(beat)}: ${note}`;
  if (kind === 'passage-gone') return `${passage}: taken out.`;
  if (kind === 'passage-new') return `${passage}: new.`;
  if (kind === 'note-new') return `${place} is new: ${after}.`;
  if (kind === 'note-gone') return `${place} is gone.`;
  if (kind === 'fingering') return `${place} was ${before}; now ${after}.`;
  return `${passage}, ${kind === 'chance' ? 'clean' : 'fastest safe tempo'}: ${before}, now ${after}.`;
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

function passageChanges(before: Version, after: Version): readonly Change[] {
  const found: Change[] = [];
  const passage = nameOf(after);
  const tell = (kind: Change['kind'], { event, sound }: Played, how: Pick<Change, 'before' | 'after'>) =>
    found.push({ passage, kind, bar: event.bar, beat: event.beat, note: sound, ...how });
  const [old, now] = [played(before), played(after)];
  let [at, to] = [0, 0];
  for (const { value, added, removed } of diffArrays(old, now, { comparator: sameDemand })) {
    for (let i = 0; i < value.length; i++) {
      if (added) tell('note-new', now[to]!, { after: now[to]!.how });
      else if (removed) tell('note-gone', old[at]!, { before: old[at]!.how });
      else if (old[at]!.how !== now[to]!.how) tell('fingering', now[to]!, { before: old[at]!.how, after: now[to]!.how });
      if (!added) at++;
      if (!removed) to++;
    }
  }
  const told = (kind: Change['kind'], was: string, is: string) => {
    if (was !== is) found.push({ passage, kind, before: was, after: is });
  };
  told('chance', often(before.report.clean), often(after.report.clean));
  told('tempo', tempoOf(before.report), tempoOf(after.report));
  return found;
}

/** The same notes asked for equally long: what can be compared, whatever bar it has moved to. */
function sameDemand(a: Played, b: Played): boolean {
  return a.event.duration === b.event.duration && a.sound === b.sound;
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
