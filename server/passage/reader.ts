import { lifted } from '../../grammar/at';
import type { MusicLine, Tree } from '../../grammar/tree';
import { later, t } from '../l10n/translate';
import type { Tempo } from '../music/meter';
import { type Exact, exactly, NO_TIME, one } from '../music/time';
import { alike } from './alike';
import { passageBars, type Stood, standing, trailingRests } from './assemble';
import { type Context, NOTHING_PENDING } from './context';
import type { Expansion } from './flatten';
import { readMusicLine } from './line';
import type { LineMusic } from './line-music';
import { type MotifBook, onFile } from './motif';
import type { Bar, Instruction, Passage, PassageEvent, Setup } from './passage';
import { error, type PassageProblem } from './problem';
import { readHead, readOnward, type SettingNotes, type SettingPlace } from './settings';
import { inForce, type Overrides, setupOf, type Values } from './setup';
import { brokenTie } from './tie';

/** Lines that belong together: `first` is the `passage:` line, or 0. */
export interface Region {
  readonly first: number;
  readonly end: number;
  readonly title: string;
  /** Settings of the passage alone; those of an unnamed first one are the file's. */
  readonly head: readonly SettingPlace[];
  /** Index of the first line of music; `end` where there is none. */
  readonly music: number;
}

/** A line of music as read, with all that its reading rests on. */
export interface LineRecord {
  readonly node: MusicLine;
  readonly context: Context;
  readonly music: LineMusic;
  /** What the motifs named on it stood for, and which names there were if one of them was unknown. */
  readonly expansions: readonly (readonly [string, Expansion | undefined])[];
  readonly names: readonly string[] | undefined;
  /** Its events as they last stood; they are set down anew only when line or bar number, or the rests after them, change. */
  readonly stood: Stood | undefined;
}

/** What the passages of one file are read with and write to. */
interface Desk {
  readonly tree: Tree;
  readonly motifs: MotifBook;
  readonly overrides: Overrides;
  readonly notes: SettingNotes;
  readonly problems: PassageProblem[];
  readonly kept: (line: number) => LineRecord | undefined;
  /** By line of the file. */
  readonly records: (LineRecord | undefined)[];
  /** Notes that motifs may still stand for. */
  readonly room: number;
}

interface Read {
  readonly passage: Passage;
  readonly room: number;
  readonly motifs: ReadonlySet<string>;
}

const DEFAULT_TEMPO: Tempo = { beat: exactly(1, 4), bpm: 96, assumed: true };
const EIGHTH = exactly(1, 8);
const AT_THE_END = later('the passage ends there');

/** Reads the lines of one passage, top to bottom. */
export class PassageReader {
  readonly #lines: { readonly line: number; readonly record: LineRecord; readonly music: LineMusic }[] = [];
  readonly #instructions: (Omit<Instruction, 'bar'> & { readonly closed: number })[] = [];
  readonly #motifs = new Set<string>();
  readonly #values: Values;
  #context: Context;
  #room: number;
  #closed = 0;

  constructor(
    readonly desk: Desk,
    readonly region: Region,
    readonly index: number,
    inherited: Values,
  ) {
    const { notes, overrides } = desk;
    const written = readHead(region.head, inherited, { scope: 'passage', passage: index }, notes, overrides);
    this.#values = inForce(written, overrides);
    this.#context = opening(this.#values, setupOf(written, overrides), overrides);
    this.#room = desk.room;
  }

  /** `before` is the passage of the same number in the file before the edit; it is given back where nothing changed. */
  read(before: Passage | undefined): Read {
    const { tree } = this.desk;
    const { first, end, music } = this.region;
    for (let line = first; line < end; line++) {
      const node = tree.lines[line]?.node;
      if (node?.kind === 'music') this.#music(node, line);
      else if (node?.kind === 'instruction') this.#instruct(node.text.text);
      else if (node?.kind === 'setting' && node.key.text === 'mark' && line < music) this.#instruct(node.value.text, true);
      else if (node?.kind === 'setting' && line > music) this.#onward(line);
    }
    for (const { note } of this.#context.held) this.#breakTie(note, t(AT_THE_END));
    const last = this.#lines.at(-1);
    if (last?.music.overfull) this.desk.problems.push(onFile(last.music.overfull, last.line, tree, this.desk.motifs));
    return { passage: this.#passage(before), room: this.#room, motifs: this.#motifs };
  }

  #music(node: MusicLine, line: number): void {
    const { motifs, kept, records } = this.desk;
    const exhausted = this.#room <= 0;
    const incoming = exhausted === this.#context.exhausted ? this.#context : { ...this.#context, exhausted };
    const old = kept(line);
    const record = old && valid(old, node, incoming, motifs) ? old : read(node, incoming, motifs);
    records[line] = record;
    const { music } = record;
    // Ties out of an earlier line that this one doesn't take up.
    for (const { note, why } of music.unmet) this.#breakTie(note, why);
    this.#context = music.out;
    this.#room -= music.expanded;
    this.#closed += music.closes;
    if (music.motifs.size > 0) for (const name of music.motifs) this.#motifs.add(name);
    this.#lines.push({ line, record, music });
  }

  #instruct(text: string, mark = false): void {
    const closed = this.#closed + (this.#context.filled === NO_TIME ? 0 : 1);
    if (text) this.#instructions.push({ closed, text, ...(mark && { mark: true }) });
  }

  #onward(line: number): void {
    const { tree, notes, overrides, problems } = this.desk;
    const { node, start } = tree.lines[line] ?? {};
    if (node?.kind !== 'setting' || start === undefined) return;
    const context = this.#context;
    const head = this.region.music;
    const { tempo, meter, key, clef, mark, harmonics, keep } = readOnward(
      { node, line },
      context.setup.instrument.family,
      this.index,
      head,
      notes,
    );
    if (mark) this.#instruct(mark, true);
    const inside = meter !== undefined && context.filled !== NO_TIME;
    if (inside) {
      const message = t(
        "The meter changes inside a bar, so the length of this bar can't be checked. Put a bar line before the change.",
      );
      problems.push(error('meter-inside-bar', lifted(node.key, start), message));
    }
    this.#context = {
      ...context,
      ...(tempo && !overrides.tempo && { tempo }),
      ...(meter && { meter }),
      ...(key && { key: alike(key, this.#values.key) ? undefined : key }),
      ...(clef && { clef: writtenClef(clef) }),
      ...(harmonics && !overrides.harmonics && { harmonics }),
      ...(keep && { keep }),
      loose: context.loose || inside,
    };
  }

  #breakTie(note: number, why: string): void {
    const { tree, motifs, problems } = this.desk;
    const from = this.#lines.findLast(({ music }) => music.events.length > 0);
    const tie = from?.music.ties.find((known) => known.note === note);
    if (!from || !tie) return;
    problems.push(onFile(brokenTie(tie, why), from.line, tree, motifs));
  }

  #passage(before: Passage | undefined): Passage {
    const { upbeat, setup } = this.#context;
    const { first, end, title } = this.region;
    const lines = this.#lines.map(({ music }) => music);
    const bars = passageBars(lines, upbeat ? 0 : 1);
    const events = this.#events(bars[0], upbeat);
    const instructions = this.#instructions.map(
      ({ closed, ...said }): Instruction => ({ bar: bars[Math.min(closed, bars.length - 1)]?.number ?? 1, ...said }),
    );
    const { key } = this.#values;
    const passage: Passage = { title, setup, ...(key && { key }), events, lines: { first, end }, bars, instructions };
    return before && samePassage(before, passage) ? before : passage;
  }

  #events(firstBar: Bar | undefined, upbeat: Exact | undefined): readonly PassageEvent[] {
    const late = upbeat && firstBar?.meter ? one(upbeat.mul(-firstBar.meter.unit).add(firstBar.meter.count)) : NO_TIME;
    const motifLine = (name: string) => this.desk.motifs.get(name)?.line;
    const trailing = trailingRests(this.#lines.map(({ music }) => music));
    const events: PassageEvent[] = [];
    let bar = upbeat ? 0 : 1;
    this.#lines.forEach(({ line, record, music }, index) => {
      const at = { line, bar, trailing: trailing[index] ?? NO_TIME, late: bar === 0 ? late : NO_TIME };
      const stood = standing(music, at, motifLine, record.stood);
      if (stood !== record.stood) this.desk.records[line] = { ...record, stood };
      for (const event of stood.events) events.push(event);
      bar += music.closes;
    });
    return events;
  }
}

function opening(values: Values, setup: Setup, overrides: Overrides): Context {
  return {
    setup,
    tempo: overrides.tempo ?? values.tempo ?? DEFAULT_TEMPO,
    meter: values.meter,
    key: undefined,
    clef: writtenClef(values.clef),
    harmonics: overrides.harmonics ?? values.harmonics ?? 'marked',
    keep: values.keep ?? {},
    dynamic: undefined,
    plucked: false,
    duration: EIGHTH,
    filled: NO_TIME,
    loose: false,
    firstBar: true,
    upbeat: undefined,
    begun: false,
    held: [],
    pending: NOTHING_PENDING,
    exhausted: false,
  };
}

function writtenClef(clef: Values['clef']): Bar['clef'] {
  return clef === 'automatic' ? undefined : clef;
}

/** True when two passages say the same, the events by identity. */
function samePassage({ events, ...a }: Passage, { events: others, ...b }: Passage): boolean {
  return events.length === others.length && events.every((event, index) => event === others[index]) && alike(a, b);
}

function valid(record: LineRecord, node: MusicLine, context: Context, motifs: MotifBook): boolean {
  return (
    record.node === node &&
    alike(record.context, context) &&
    record.expansions.every(([name, expansion]) => motifs.expansion(name) === expansion) &&
    (record.names === undefined || record.names === motifs.names)
  );
}

function read(node: MusicLine, context: Context, motifs: MotifBook): LineRecord {
  const music = readMusicLine(node, context, motifs);
  const expansions = [...music.motifs].map((name) => [name, motifs.expansion(name)] as const);
  const known = expansions.every(([, expansion]) => expansion);
  return { node, context, music, expansions, names: known ? undefined : motifs.names, stood: undefined };
}
