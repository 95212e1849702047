import Parse from 'abcjs/src/parse/abc_parse.js';
import { t } from '../../l10n/translate';
import { oneLine, type TuneName } from '../score/score';
import { Unreadable } from '../unreadable';

/** A tune as the ABC library reads it, line by line. Only what a passage has use for. */
export interface Tune {
  readonly metaText: {
    readonly title?: string;
    readonly composer?: unknown;
    readonly origin?: unknown;
    readonly copyright?: unknown;
    readonly tempo?: TuneTempo;
    readonly partOrder?: unknown;
  };
  readonly lines: readonly { readonly staff?: readonly Staff[] }[];
}

export interface Staff {
  readonly clef?: TuneClef;
  readonly key?: TuneKey;
  readonly meter?: TuneMeter;
  /** Printed names of its voices. */
  readonly title?: readonly string[];
  readonly voices: readonly (readonly Sign[])[];
}

/** Any sign of a voice; which members it has, `el_type` says. */
export interface Sign {
  readonly el_type: string;
  /** Of a note in whole notes without its tuplet; of a tempo the beats that are counted together. */
  readonly duration?: number | readonly number[];
  readonly pitches?: readonly TunePitch[];
  readonly rest?: { readonly type: string; readonly text?: number };
  readonly gracenotes?: readonly (TunePitch & { readonly duration?: number })[];
  readonly decoration?: readonly string[];
  /** Chord symbols, and texts with the place they stand at. */
  readonly chord?: readonly { readonly name: string; readonly position?: string }[];
  readonly startTriplet?: number;
  readonly tripletMultiplier?: number;
  readonly endTriplet?: boolean;
  readonly startSlur?: readonly { readonly label: number }[];
  readonly endSlur?: readonly number[];
  readonly lyric?: unknown;
  readonly style?: string;
  /** Of a bar line, a clef or a meter. */
  readonly type?: string;
  readonly startEnding?: string;
  readonly endEnding?: boolean;
  /** Of a key. */
  readonly accidentals?: TuneKey['accidentals'];
  /** Of a part. */
  readonly title?: string;
  /** Semitones of a transposition. */
  readonly steps?: number;
}

export interface TunePitch {
  /** White keys above middle C. */
  readonly pitch: number;
  readonly accidental?: string;
  readonly startTie?: object;
  readonly startSlur?: Sign['startSlur'];
  readonly endSlur?: Sign['endSlur'];
}

export interface TuneKey {
  /** `none` where there is no signature. */
  readonly root?: string;
  readonly accidentals: readonly { readonly acc: string; readonly note: string }[];
  readonly mode: string;
}

export interface TuneClef {
  readonly type: string;
}

export interface TuneMeter {
  readonly type: string;
  readonly value?: readonly { readonly num: string; readonly den?: string }[];
}

export interface TuneTempo {
  readonly bpm?: number;
  readonly duration?: readonly number[];
  readonly preString?: string;
  readonly postString?: string;
}

export interface Warning {
  readonly message: string;
  readonly line: string;
  readonly column: number;
}

/** Characters of a file; the longest tune books have some millions, one tune a few thousand. */
const LONGEST = 2 ** 20;

/** Reads the tune of an ABC text that has this number after its `X:`, else the first; `others` counts the rest. @throws Unreadable */
export function parseTune(
  text: string,
  wanted?: string,
): { readonly tune: Tune; readonly warnings: readonly Warning[]; readonly others: number } {
  const { chosen, others } = chosenTune(text, wanted);
  if (chosen.length > LONGEST)
    throw new Unreadable(
      t('The tune is longer than {most} characters, too long to read at once. Cut out what you need.', { most: LONGEST }),
    );
  const parser = new Parse();
  try {
    parser.parse(withKnownDecorations(withoutLayout(chosen)), {});
    return {
      tune: parser.getTune(),
      warnings: parser.getWarningObjects() ?? [],
      others,
    };
  } catch {
    throw new Unreadable(
      t('The ABC text can’t be read: its reader gave up on it. Check it against the ABC 2.1 standard, bar by bar.'),
    );
  }
}

/**
 * A tune goes from its `X:` to the next empty line; fields before the first `X:` hold for all tunes of a file (ABC 2.1, 2.2). A text
 * without an `X:` is a tune from its first field on.
 */
function chosenTune(text: string, wanted: string | undefined): { readonly chosen: string; readonly others: number } {
  const found = [...text.matchAll(/^X:[ \t]*(\d*)/gm)];
  const starts = found.map((m) => m.index);
  const numbers = found.map(([, number]) => Number(number));
  const at = wanted === undefined ? 0 : numbers.indexOf(/^\d+$/.test(wanted.trim()) ? Number(wanted) : Number.NaN);
  if (at < 0) throw new Unreadable(noTune(wanted ?? '', numbers));
  const start = starts[at] ?? Math.max(0, text.search(/^[A-Za-z]:/m));
  const [tune = ''] = text.slice(start, starts[at + 1]).split(/\n[ \t]*\n/);
  const lines = tune.split('\n');
  // What the tune says itself counts; after its own fields, as a meter brings a unit length of its own.
  const own = new Set(lines.map((line) => line.slice(0, 2)));
  const head = text.slice(0, starts[0] ?? 0).split('\n');
  const usual = head.filter((line) => /^[LMQR]:/.test(line) && !own.has(line.slice(0, 2)));
  const key = lines.findIndex((line) => line.startsWith('K:'));
  return { chosen: lines.toSpliced(Math.max(0, key), 0, ...usual).join('\n'), others: Math.max(0, starts.length - 1) };
}

/** The tunes of an ABC text that can be asked for, each number once. */
export function tunesIn(text: string): readonly TuneName[] {
  const tunes = text.split(/^(?=X:)/m).flatMap((tune): TuneName[] => {
    const number = /^X:[ \t]*(\d+)/.exec(tune)?.[1];
    return number === undefined ? [] : [{ number: String(Number(number)), title: oneLine(/^T:(.*)/m.exec(tune)?.[1] ?? '') }];
  });
  return tunes.filter(({ number }, i) => tunes.findIndex((other) => other.number === number) === i);
}

/** Numbers of tunes that a message lists at most. */
const MOST_LISTED = 20;

function noTune(wanted: string, numbers: readonly number[]): string {
  if (numbers.length === 0) return t('The tunes of this file have no numbers (X:), so the first is read: leave the number out.');
  const more = numbers.length > MOST_LISTED ? ' …' : '';
  return t('The file has no tune X:{wanted}. Its tunes are: {numbers}{more}.', {
    wanted,
    numbers: numbers.slice(0, MOST_LISTED).join(', '),
    more,
  });
}

/** Without what is for typesetting only: its blocks would also keep the library waiting for their end. */
function withoutLayout(text: string): string {
  return text
    .replace(/^%%begin(\w+)[\s\S]*?(?:^%%end\1.*$|(?![\s\S]))/gm, '%')
    .replace(/^%%(?!score\b|staves\b).*$/gm, '%')
    .replace(/(^|\[)I:\s*begin/gm, '$1I:');
}

/** Decorations of ABC 2.1 (section 4.14) that the library doesn't know, as the text that they print. */
const AS_TEXT: Readonly<Record<string, string>> = { dacoda: 'To Coda', dacapo: 'D.C.', fine: 'Fine' };

function withKnownDecorations(text: string): string {
  return text.replace(/([!+])(dacoda|dacapo|fine)\1/g, (_, __, name: string) => `"^${AS_TEXT[name]}"`);
}
