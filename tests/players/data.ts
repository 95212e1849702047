import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';

/**
 * Reads what players did (the data sets beside the repository; see their README). No row of them is in the project. A row
 * that contradicts itself (a string on which the pitch does not exist) says nothing of that note and is counted.
 */

/** One note that everybody played, and what each player chose for it. */
export interface Played {
  /** MIDI number. */
  readonly pitch: number;
  /** Quarter notes since the bar line, and how long. */
  readonly start: number;
  readonly duration: number;
  readonly chosen: readonly (Chosen | undefined)[];
  /** How it was written down that the note is a harmonic: 1 natural, 2 artificial, 3 other. */
  readonly harmonic: number;
}

export interface Chosen {
  /** 0 for the lowest string. */
  readonly string: number;
  readonly finger: number;
  /** 1 the first position, 0 half; as the player counted. */
  readonly position: number;
}

export interface Piece {
  readonly name: string;
  /** Movements of one work are one. */
  readonly work: string;
  readonly set: 'ten violinists' | 'performances';
  readonly players: number;
  readonly notes: readonly Played[];
  /** Rows that contradict themselves or lack a value. */
  readonly dropped: number;
}

const OPEN = [55, 62, 69, 76];
/** Semitones of fingerboard above an open string. */
const BOARD = 29;

export function readPlayers(folder: string): readonly Piece[] | undefined {
  const [ten, performances] = [join(folder, 'ten-violinists'), join(folder, 'performances')];
  if (!existsSync(ten) || !existsSync(performances)) return undefined;
  const names = new Map<string, string[]>();
  for (const file of readdirSync(ten).sort()) {
    const piece = /^vio\d+_(.+)\.csv$/.exec(file)?.[1];
    if (piece) names.set(piece, [...(names.get(piece) ?? []), join(ten, file)]);
  }
  return [
    ...[...names].map(([name, files]) => pieceOf(name, workOf(name), 'ten violinists', files)),
    ...readdirSync(performances)
      .filter((file) => file.endsWith('.csv'))
      .sort()
      .map((file) => pieceOf(basename(file, '.csv'), `performance ${file}`, 'performances', [join(performances, file)])),
  ];
}

/** `mend1`, `mend2` and `beeth2_1`, `beeth2_2` are movements of one work. Too wide is the honest side: `mend4` would be left out with them. */
function workOf(name: string): string {
  return name.includes('_') ? name.slice(0, name.indexOf('_')) : name.replace(/\d+$/, '');
}

interface Row {
  readonly pitch: number;
  readonly start: number;
  readonly duration: number;
  readonly harmonic: number;
  readonly chosen: Chosen | undefined;
}

function pieceOf(name: string, work: string, set: Piece['set'], files: readonly string[]): Piece {
  const players = files.map(rowsOf);
  // Players share the notes; the longest file that most agree with in length is the model, others are followed note by note.
  const lengths = players.map((rows) => players.filter((other) => other.length === rows.length).length);
  const model = players[lengths.indexOf(Math.max(...lengths))]!;
  const followed = players.map((rows) => follow(model, rows));
  let dropped = 0;
  const notes = model.map(({ pitch, start, duration, harmonic }, i) => ({
    pitch,
    start,
    duration,
    harmonic,
    chosen: followed.map((rows) => {
      const chosen = rows[i]?.chosen;
      if (!chosen) dropped++;
      return chosen;
    }),
  }));
  return { name, work, set, players: files.length, notes, dropped };
}

/** Rows a player's file may have more or fewer than the model's at one place. */
const ASTRAY = 4;

/** For every note of the model, the row of another file that is the same note. */
function follow(model: readonly Row[], rows: readonly Row[]): readonly (Row | undefined)[] {
  let next = 0;
  return model.map(({ pitch, start }) => {
    for (let ahead = 0; ahead <= ASTRAY; ahead++) {
      const row = rows[next + ahead];
      if (row?.pitch !== pitch || Math.abs(row.start - start) > 0.01) continue;
      next += ahead + 1;
      return row;
    }
    return undefined;
  });
}

function rowsOf(file: string): readonly Row[] {
  const [head, ...lines] = readFileSync(file, 'utf8').trim().split(/\r?\n/);
  const columns = head!.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    const value = (name: string) => Number(cells[columns.indexOf(name)] || Number.NaN);
    const [pitch, string, finger, position] = [value('pitch'), value('string') - 1, value('finger'), value('position')];
    const above = pitch - (OPEN[string] ?? Number.NaN);
    const harmonic = columns.includes('harmonic') ? value('harmonic') || 0 : 0;
    const can = harmonic > 0 || (above >= 0 && above <= BOARD && finger >= 0 && finger <= 4 && (finger === 0) === (above === 0));
    return {
      pitch,
      start: value('start'),
      duration: value('duration'),
      harmonic,
      chosen: can ? { string, finger, position } : undefined,
    };
  });
}
