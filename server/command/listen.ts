import { createReadStream, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { mostlyFailed } from '../listening/advice';
import { attemptsIn } from '../listening/attempts';
import { UnreadableAudio } from '../listening/audio/unreadable-audio';
import { heardIn } from '../listening/heard';
import type { Listening } from '../listening/listen';
import { type HeardRecording, hearRecording } from '../listening/recording';
import { verdictWords } from '../listening/summary';
import type { HeardNote } from '../listening/verdict';
import { logTake, unlogTake } from '../player/log-take';
import { hardSpots } from '../practice/hard-spots';
import { type PracticeRequest, practice } from '../practice/practice';
import type { ScenePassage } from '../protocol/scene';
import { renderHeardPage } from '../scene/heard/heard-page';
import { sealed } from '../scene/page/sealed';
import { scenePassage } from '../scene/scene';
import type { Solution } from '../solver/solution';
import type { Snapshot } from '../workspace/snapshot';
import { type AnswerOptions, answerTo, checkAnswer } from './answer';
import { CannotRun, EXIT } from './cannot-run';
import { differences } from './differences';
import { isFile } from './file-at';
import { findInputs, readBytes, readInput, reportedName, strictText } from './inputs';
import { jsonText } from './json-text';
import { formatFrom, type PlayerOptions, playerFrom } from './options';
import { checkOutput, everythingRead } from './output';
import { onePassage } from './passages-named';
import { progressBar } from './progress-bar';
import { replaceFile } from './replace-file';
import { note, say } from './say';
import { overridesOf, study } from './study';
import { visible } from './visible';

export interface ListenOptions extends PlayerOptions, AnswerOptions {
  readonly format: string;
  readonly passage?: string;
  readonly log?: boolean;
  readonly unlog?: boolean;
  readonly diff?: boolean;
  readonly page?: string;
  readonly exercises?: string;
}

/** `passagework listen`: what became of every note in a recording of a passage, and where asked its attempts in the player's file. */
export async function runListen(name: string, recording: string, options: ListenOptions): Promise<number> {
  const format = formatFrom(options.format, ['text', 'json']);
  const player = playerFrom(options);
  const inputs = await findInputs([name]);
  if (inputs.length > 1) throw new CannotRun(`There is more than one passage file in ${name}: name the one that is played.`);
  [name = name] = inputs;
  const sources = [...everythingRead(inputs, options.player), recording];
  checkAnswer(options, sources);
  for (const option of ['page', 'exercises'] as const) {
    const path = options[option];
    if (path) checkOutput({ path, option: `--${option}`, force: options.force, sources });
  }
  const snapshot = study(readInput(name), player, name);
  const solution = onePassage(snapshot.solutions, options.passage);
  const passage = scenePassage(solution);
  const { listening, fingerprint } = await hear(recording, passage);
  const heard = heardIn(listening, solution, passage);
  const tell = format === 'json' ? note : say;
  if (format === 'json') answerTo(options, jsonText(reportOf(listening, passage, name, recording)));
  else answerTo(options, [...heard.summary, '', ...linesOf(listening, passage)].map(visible).join('\n').trimEnd());
  if (options.page) {
    replaceFile(options.page, await sealed(renderHeardPage(heard, passage, basename(recording))));
    tell(`Page: ${options.page}`);
  }
  if (options.exercises && !listening.refused) {
    const file = reportedName(name);
    const request = { overrides: overridesOf(player, name), ...(file !== undefined && { file: basename(file) }) };
    tell(exercisesFor(listening, snapshot, solution, request, options.exercises));
  }
  if ((options.log || options.unlog) && !listening.refused) log(solution, passage, listening, fingerprint, name, options);
  return listening.refused ? EXIT.findings : EXIT.clean;
}

/** Writes hard spots of what failed; says where, or that there are none. */
function exercisesFor(
  { takes }: Listening,
  { resolved, solver, settings }: Snapshot,
  solution: Solution,
  request: Pick<PracticeRequest, 'file' | 'overrides'>,
  out: string,
): string {
  const failed = mostlyFailed(takes);
  const { text, made } = practice({
    resolved,
    solutions: [solution],
    solver,
    kinds: [hardSpots],
    chance: settings.safeChance,
    failed,
    ...request,
  });
  if (text === '') return 'No exercises: nothing in the recording failed half the time or more.';
  replaceFile(out, text);
  return `Exercises: ${out} (${made[0]!.count} of what failed)`;
}

async function hear(path: string, passage: ScenePassage): Promise<HeardRecording> {
  if (!isFile(path)) throw new CannotRun(`There is no recording ${path}.`);
  const bar = await progressBar('listening', '{percentage} %', statSync(path).size);
  async function* passing(): AsyncGenerator<Uint8Array> {
    for await (const block of createReadStream(path)) {
      yield block;
      bar.step(block.length);
    }
  }
  try {
    return await hearRecording(passing(), passage);
  } catch (error) {
    if (error instanceof UnreadableAudio) throw new CannotRun(`${path} can't be listened to. ${error.message}`);
    if (error instanceof Error && 'syscall' in error) throw new CannotRun(`Can't read ${path}: ${error.message}`);
    throw error;
  } finally {
    bar.stop();
  }
}

/** Writes the attempts into the player's file, or takes them back; shows what changes. */
function log(
  solution: Solution,
  passage: ScenePassage,
  { takes }: Listening,
  fingerprint: string,
  name: string,
  options: ListenOptions,
): void {
  const { hand, player } = solution.passage.setup;
  const path = options.player ?? (player?.file && join(dirname(name), player.file));
  if (!path)
    throw new CannotRun(
      'There is no player file to count the attempts in: name one with --player, or in the passage as player: ines.player.',
    );
  const bytes = readBytes(path);
  const { text: before, mark } = strictText(bytes, path);
  const counts = attemptsIn(takes, passage, hand.skill.inTune);
  const text = options.unlog ? unlogTake(before, fingerprint) : logTake(before, fingerprint, counts);
  const tell = options.format === 'json' ? note : say;
  if (text === undefined)
    tell(
      options.unlog
        ? `${path} does not count this recording, so it stays as it is.`
        : `${path} counts this recording already, so it stays as it is.`,
    );
  else if (!options.unlog && counts.length === 0) tell('Nothing in the recording is sure enough to count.');
  else {
    const shown = differences([{ name: path, as: path, text, before }]);
    tell(shown);
    if (options.diff) return;
    replaceFile(path, mark + text, bytes);
    tell(options.unlog ? `${path}: taken back.` : `${path}: counted. The same command with --unlog takes it back.`);
  }
}

/** Every note of every take on a line of its own. */
function linesOf({ takes }: Listening, passage: ScenePassage): readonly string[] {
  return takes.flatMap(({ from, whole, notes }) => [
    `${whole ? 'Take' : 'Part'} from ${from.toFixed(1)} s`,
    ...notes.map((heard) => `  ${MARKS[heard.verdict]} ${placeOf(heard, passage)} ${verdictWords(heard)}`),
  ]);
}

/** A mark besides the words, so that neither colour nor language is needed. */
const MARKS = { spoke: '+', late: '>', other: 'x', 'not-heard': '-', 'not-judged': '?' } as const;

function placeOf({ event, note: index }: HeardNote, { events }: ScenePassage): string {
  const at = events[event];
  const scene = at?.notes[index];
  return `${at?.bar}:${at?.beat}`.padEnd(8) + `${scene?.sounding} ${scene?.string} ${scene?.interval ?? scene?.kind}`.padEnd(22);
}

function reportOf({ seconds, a4, takes, refused }: Listening, passage: ScenePassage, name: string, recording: string): object {
  const file = reportedName(name);
  return {
    ...(file !== undefined && { file }),
    recording: reportedName(recording),
    title: passage.title,
    seconds: rounded(seconds),
    a4: rounded(a4),
    ...(refused && { refused }),
    takes: takes.map(({ from, to, pace, whole, notes }) => ({
      from: rounded(from),
      to: rounded(to),
      pace: rounded(pace),
      whole,
      notes: notes.map((heard) => noteReport(heard, passage)),
    })),
  };
}

function noteReport(
  { event, note: index, verdict, instead, onset, end, late, intonation, sure }: HeardNote,
  { events }: ScenePassage,
): object {
  const at = events[event];
  const scene = at?.notes[index];
  return {
    bar: at?.bar,
    beat: at?.beat,
    line: (at?.range.start.line ?? 0) + 1,
    column: (at?.range.start.character ?? 0) + 1,
    sounding: scene?.sounding,
    string: scene?.string,
    kind: scene?.kind,
    verdict,
    ...(instead && {
      instead: { source: instead.source, hz: rounded(instead.hz), ...(instead.partial && { partial: instead.partial }) },
    }),
    onset: rounded(onset),
    end: rounded(end),
    ...(late !== undefined && { lateMs: late }),
    ...(intonation && { cents: rounded(intonation.cents), wander: rounded(intonation.wander) }),
    sure: rounded(sure),
  };
}

function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}
