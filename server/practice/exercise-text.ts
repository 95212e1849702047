import { printForm, printLine, printPitch } from '../../grammar/print';
import type { Dynamic } from '../../grammar/tree';
import { durationText } from '../music/duration';
import type { Meter, Tempo } from '../music/meter';
import { type Exact, exactly, NO_TIME, sum } from '../music/time';
import type { Exercise, ExerciseBar, ExerciseNote, Piece, Section } from './exercise';

const WIDTH = 96;

export function tempoText({ beat, bpm }: Tempo): string {
  return `${durationText(beat)} = ${bpm}`;
}

export function barLength({ pieces }: ExerciseBar): Exact {
  return pieces.reduce((total, { duration }) => sum(total, duration), NO_TIME);
}

/**
 * The lines of an exercise as a passage. `settings` stand under its `passage:` line; `pinned` are the pieces, counted in the
 * order of the exercise, whose hints stand although they need not always.
 */
export function exerciseLines(
  exercise: Exercise,
  settings: readonly string[] = [],
  pinned: ReadonlySet<Piece> = new Set(),
): readonly string[] {
  const bars = exercise.sections.flatMap(({ bars, rest }) => [...bars, ...(rest ? [rest] : [])]);
  const metered = bars.every((bar) => bar.meter && barLength(bar).equals(exactly(bar.meter.count, bar.meter.unit)));
  const state: Writing = { pinned, metered, tempo: '', meter: '', dynamic: 'mf' };
  const name = printLine({ kind: 'passage', name: { text: exercise.title }, problems: [] });
  return [name, ...settings, ...exercise.sections.flatMap((section) => sectionLines(section, state))];
}

/** What has been written so far and holds on. */
interface Writing {
  readonly pinned: ReadonlySet<Piece>;
  readonly metered: boolean;
  tempo: string;
  meter: string;
  dynamic: Dynamic;
}

function sectionLines({ instructions, bars, repeated, rest }: Section, state: Writing): readonly string[] {
  const lines: string[] = [];
  let line = repeated ? '|:' : '';
  let told = false;
  let duration: Exact | undefined;
  const flush = () => {
    if (line) lines.push(line);
    line = '';
    duration = undefined;
  };
  const all = bars.flatMap(({ pieces }) => pieces);
  let at = 0;
  for (const [index, bar] of bars.entries()) {
    const settings = changes(bar, state);
    const inside = all[at - 1]?.stroke !== undefined && all[at - 1]?.stroke === all[at]?.stroke;
    if (settings.length && (index > 0 || !repeated)) flush();
    const write = (from: Exact | undefined) => barText(all, at, at + bar.pieces.length, from, state);
    const before = state.dynamic;
    let made = write(duration);
    if (!inside && line && line !== '|:' && line.length + made.text.length > WIDTH) {
      flush();
      state.dynamic = before;
      made = write(undefined);
    }
    lines.push(...settings);
    if (!told) lines.push(...instructions.map(instruction));
    told = true;
    const close = index < bars.length - 1 ? '|' : repeated ? ':|' : '||';
    line = [line, made.text, close].filter(Boolean).join(' ');
    duration = made.duration;
    at += bar.pieces.length;
  }
  flush();
  if (rest) {
    lines.push(`${barText(rest.pieces, 0, rest.pieces.length, undefined, state).text} ||`);
  }
  return lines;
}

/** The settings that this bar changes. */
function changes({ tempo, meter }: ExerciseBar, state: Writing): readonly string[] {
  const lines: string[] = [];
  const wantedTempo = tempoText(tempo);
  if (wantedTempo !== state.tempo) lines.push(setting('tempo', wantedTempo));
  state.tempo = wantedTempo;
  const wantedMeter = state.metered && meter ? meterText(meter) : '';
  if (wantedMeter !== state.meter) lines.push(setting('meter', wantedMeter));
  state.meter = wantedMeter;
  return lines;
}

function meterText({ count, unit }: Meter): string {
  return `${count}/${unit}`;
}

function instruction(text: string): string {
  return printLine({ kind: 'instruction', text: { text }, problems: [] });
}

/** A setting line of the passage language. */
export function setting(key: string, value: string): string {
  return printLine({ kind: 'setting', key: { text: key }, value: { text: value }, problems: [] });
}

function barText(all: readonly Piece[], from: number, end: number, before: Exact | undefined, state: Writing) {
  const words: string[] = [];
  let duration = before;
  for (let at = from; at < end; at++) {
    const piece = all[at]!;
    const { stroke, notes } = piece;
    if (notes.length && piece.dynamic && piece.dynamic !== state.dynamic) {
      words.push(piece.dynamic);
      state.dynamic = piece.dynamic;
    }
    if (!duration?.equals(piece.duration)) words.push(durationText(piece.duration));
    duration = piece.duration;
    const pinned = state.pinned.has(piece);
    const text = notes.length ? `${piece.slide ? 'slide ' : ''}${notes.map((note) => noteText(note, pinned)).join('+')}` : 'rest';
    const opens = stroke && stroke !== all[at - 1]?.stroke ? `${stroke.word}(` : '';
    const closes = stroke && stroke !== all[at + 1]?.stroke ? ')' : '';
    words.push(`${opens}${text}${closes}`);
  }
  return { text: words.join(' '), duration };
}

function noteText({ form, expected, tied, held, hints, pinned }: ExerciseNote, asked: boolean): string {
  const sounding = expected ? ` = ${printPitch(expected)}` : '';
  const said = hints && !held && (pinned || asked) ? ` [${hints}]` : '';
  return `${printForm(form)}${sounding}${tied ? '_' : ''}${said}`;
}
