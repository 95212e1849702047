import Fraction from 'fraction.js';
import type { JumpWord, MarkWord } from '../../../grammar/marks';
import type { Finger } from '../../../grammar/tree';
import { t } from '../../l10n/translate';
import { natural, type Pitch, semitone, spell } from '../../music/pitch';
import type { Losses } from '../score/losses';
import { type Directions, type Grace, type Measure, MOST_MEASURES } from '../score/measure';
import { directionOf, jumpOf } from '../score/printed-words';
import { oneLine } from '../score/score';
import { type Chord, type ChordMarks, NO_MARKS, plainNote, type WrittenNote } from '../score/written-note';
import { Unreadable } from '../unreadable';
import { IGNORED, jumpOfDecoration, marksOfDecoration, wordOfDecoration } from './decorations';
import { alterOf, clefField, keyField, lengthOf, meterField, tempoOf } from './fields';
import type { Sign, TuneKey, TuneMeter, TunePitch, TuneTempo } from './tune';

/** A measure while it is read. */
type Open = { -readonly [K in keyof Measure]: Measure[K] } & {
  chords: Chord[];
  graces: Grace[];
  directions: (Directions & { readonly onset: Fraction })[];
};

const ZERO = new Fraction(0);
/** Steps from C0 to middle C, which ABC counts from. */
const MIDDLE_C = 28;
const BARS: ReadonlySet<string> = new Set(['bar_thin_thin', 'bar_thin_thick', 'bar_thick_thin']);

/** Reads the signs of one voice in order; `measures` are complete after the last. */
export class Voice {
  readonly measures: Measure[] = [];
  #open: Open = this.#begun();
  #at = ZERO;
  #full: Fraction | undefined;
  #key: ReadonlyMap<string, number> = new Map();
  /** Accidentals of this bar, by letter: they hold in every octave to its end, as ABC 2.1 has it (11.3, `pitch`). */
  readonly #bar = new Map<string, number>();
  #tuplet = new Fraction(1);
  #transposition = 0;
  readonly #losses: Losses;
  readonly #name: string;

  constructor(losses: Losses, name: string) {
    this.#losses = losses;
    this.#name = name;
  }

  read(sign: Sign): void {
    switch (sign.el_type) {
      case 'note':
        this.#note(sign);
        break;
      case 'bar':
        this.#barLine(sign);
        break;
      case 'key':
        this.key(sign as Sign & TuneKey);
        break;
      case 'meter':
        this.meter(sign as Sign & TuneMeter);
        break;
      case 'clef':
        this.clef(sign as Sign & { type: string });
        break;
      case 'tempo':
        this.tempo(sign as TuneTempo);
        break;
      case 'part':
        if (sign.title) this.#say({ marks: [oneLine(sign.title)] });
        break;
      case 'transpose':
        this.#transposition = sign.steps ?? 0;
        break;
    }
  }

  key(key: TuneKey): void {
    this.#key = alterOf(key);
    const name = keyField(key, this.#label, this.#losses);
    if (name !== undefined) this.#open.key = name;
  }

  meter(meter: TuneMeter): void {
    const read = meterField(meter, this.#label, this.#losses);
    this.#full = read === 'free' ? undefined : new Fraction(read.count, read.unit);
    if (this.#at.equals(ZERO)) this.#open.meter = read;
    else this.#losses.notesLeftOut(this.#label, t('a change of meter inside the bar'));
  }

  clef({ type }: { readonly type: string }): void {
    const clef = clefField(type);
    if (clef && this.#at.equals(ZERO)) this.#open.clef = clef;
    else if (clef) this.#open.clefAfter = clef;
  }

  tempo(tempo: TuneTempo): void {
    const value = tempoOf(tempo, this.#label, this.#losses);
    const texts = [tempo.preString, tempo.postString].flatMap((text) => (text ? [oneLine(text)] : []));
    this.#say({ instructions: texts, ...(value !== undefined && { tempo: value }) });
  }

  /** Closes the last measure. */
  end(): readonly Measure[] {
    if (this.#at.compare(ZERO) > 0 || this.#open.graces.length > 0) this.#close();
    return this.measures;
  }

  get #label(): string {
    return String(this.measures.length + 1);
  }

  #begun(): Open {
    return {
      label: '',
      implicit: false,
      length: ZERO,
      chords: [],
      graces: [],
      directions: [],
      repeatBefore: false,
      repeatAfter: false,
      doubleAfter: false,
    };
  }

  #say(said: Partial<Directions>): void {
    this.#open.directions.push({ instructions: [], words: [], ...said, onset: this.#at });
  }

  #jump(jump: JumpWord): void {
    const { jumps = [] } = this.#open;
    if (!jumps.includes(jump)) this.#open.jumps = [...jumps, jump];
  }

  #note(sign: Sign): void {
    if (sign.rest?.type === 'spacer') return;
    if (sign.startTriplet !== undefined) this.#tuplet = lengthOf(sign.tripletMultiplier ?? 1);
    const bars = /multimeasure$/.test(sign.rest?.type ?? '') ? (sign.rest?.text ?? 1) : 1;
    const whole = this.#full ?? new Fraction(1);
    const duration = bars > 1 ? whole : lengthOf(Number(sign.duration ?? 0)).mul(this.#tuplet);
    this.#texts(sign);
    for (const { pitch, ...grace } of sign.gracenotes ?? []) {
      const note = this.#written({ pitch, ...grace }, sign);
      const chord = this.#chord(ZERO, [note], NO_MARKS);
      const value = lengthOf(grace.duration ?? 1 / 8);
      this.#open.graces.push({ chord: { ...chord, grace: value }, onset: this.#at });
    }
    const { marks, fingers, openMark } = this.#decorations(sign);
    const notes = (sign.pitches ?? []).map((pitch, i) => ({
      ...this.#written(pitch, sign),
      fingers: fingers.slice(i, i + 1),
      openMark: openMark && i === 0,
    }));
    if (duration.compare(ZERO) > 0) this.#open.chords.push(this.#chord(duration, notes, marks));
    else if (notes.length > 0) this.#losses.notesLeftOut(this.#label, t('a note without a duration'));
    this.#at = this.#at.add(duration);
    if (sign.endTriplet) this.#tuplet = new Fraction(1);
    if (sign.lyric !== undefined) this.#losses.leftOut(this.#label, t('the words sung to it'));
    for (let bar = 1; bar < bars; bar++) {
      this.#close();
      this.#open.chords.push(this.#chord(whole, [], NO_MARKS));
      this.#at = whole;
    }
  }

  #chord(duration: Fraction, notes: readonly WrittenNote[], marks: ChordMarks): Chord {
    return { measure: this.#label, voice: this.#name, onset: this.#at, duration, notes, marks };
  }

  #written({ pitch, accidental, startTie }: TunePitch, { style }: Sign): WrittenNote {
    return { ...plainNote(this.#pitch(pitch, accidental), startTie !== undefined), diamond: style === 'harmonic' };
  }

  #pitch(steps: number, accidental: string | undefined): Pitch {
    const plain = natural(steps + MIDDLE_C);
    if (accidental !== undefined) {
      const alter = ALTERS[accidental];
      if (alter === undefined)
        this.#losses.notesChanged(this.#label, t('a pitch between the semitones, written without its accidental'));
      this.#bar.set(plain.letter, alter ?? 0);
    }
    const alter = this.#bar.get(plain.letter) ?? this.#key.get(plain.letter) ?? 0;
    const written = { ...plain, alter };
    return this.#transposition === 0 ? written : spell(semitone(written) + this.#transposition, alter < 0);
  }

  /** Texts beside a note: words that the language has, jumps, and instructions. */
  #texts({ chord = [] }: Sign): void {
    for (const { name, position } of chord) {
      const text = oneLine(name);
      const way = directionOf(text);
      const jump = jumpOf(text);
      if (position === 'default') this.#losses.leftOut(this.#label, t('a chord symbol'));
      else if (way) this.#say({ words: [way] });
      else if (jump) this.#jump(jump);
      else if (text !== '') this.#say({ instructions: [text] });
    }
  }

  #decorations(sign: Sign): {
    readonly marks: ChordMarks;
    readonly fingers: readonly Finger[];
    readonly openMark: boolean;
  } {
    const printed: MarkWord[] = [];
    const fingers: Finger[] = [];
    const marks: { bow?: 'up' | 'down'; strokes?: number; slide: boolean } = { slide: false };
    let openMark = false;
    for (const name of sign.decoration ?? []) {
      const mark = marksOfDecoration(name);
      if (mark) {
        printed.push(...mark.words);
        if (mark.strokes !== undefined) marks.strokes = mark.strokes;
        if (mark.near)
          this.#losses.changed(this.#label, t('the mark “{name}”, written as {words}', { name, words: mark.words.join(' ') }));
      } else if (/^[0-4]$/.test(name)) fingers.push(Number(name) as Finger);
      else if (name === 'thumb') fingers.push('T');
      else if (name === 'open') openMark = true;
      else if (name === 'upbow' || name === 'downbow') marks.bow = name === 'upbow' ? 'up' : 'down';
      else if (name === 'slide' || name === 'glissando)' || name === '~)') marks.slide = true;
      else if (name !== 'glissando(' && name !== '~(') this.#between(name);
    }
    const slurs = [sign, ...(sign.pitches ?? [])];
    return {
      marks: {
        slurStarts: slurs.flatMap(({ startSlur = [] }) => startSlur.map(({ label }) => `${this.#name}/${label}`)),
        slurStops: slurs.flatMap(({ endSlur = [] }) => endSlur.map((label) => `${this.#name}/${label}`)),
        printed: [...new Set(printed)],
        ...marks,
      },
      fingers,
      openMark,
    };
  }

  /** Decorations that say something between notes or at a bar line. */
  #between(name: string): void {
    const word = wordOfDecoration(name);
    const jump = jumpOfDecoration(name);
    if (word) {
      this.#say({ words: [word.word] });
      if (word.beyond)
        this.#losses.changed(this.#label, t('a dynamic beyond ppp or fff'), t('{name} as {word}', { name, word: word.word }));
    } else if (jump) this.#jump(jump as JumpWord);
    else if (!IGNORED.has(name)) this.#losses.leftOut(this.#label, t('the mark “{name}”', { name }));
  }

  #barLine(sign: Sign): void {
    const { type = '' } = sign;
    // What stands at a bar line belongs to the bar before it.
    const closes = this.#at.compare(ZERO) > 0;
    for (const name of sign.decoration ?? []) {
      const jump = jumpOfDecoration(name);
      const last = this.measures.at(-1);
      if (jump && !closes && last) last.jumps === undefined && Object.assign(last, { jumps: [jump as JumpWord] });
      else this.#between(name);
    }
    this.#texts(sign);
    const repeatAfter = type === 'bar_right_repeat' || type === 'bar_dbl_repeat';
    const before = closes ? this.#open : (this.measures.at(-1) as Open | undefined);
    if (before) {
      before.repeatAfter ||= repeatAfter;
      before.doubleAfter ||= BARS.has(type);
      if (sign.endEnding && !before.repeatAfter) before.endingAfter = true;
    }
    if (closes) this.#close();
    if (type === 'bar_left_repeat' || type === 'bar_dbl_repeat') this.#open.repeatBefore = true;
    if (sign.startEnding !== undefined) this.#open.ending = [...new Set(sign.startEnding.match(/[1-9]/g) ?? ['1'])].join(', ');
  }

  #close(): void {
    // `Z9999` asks for as many as it likes.
    if (this.measures.length >= MOST_MEASURES)
      throw new Unreadable(
        t('The tune has more than {most} bars, which no tune has, so it is not read.', { most: MOST_MEASURES }),
      );
    const before = this.measures.at(-1);
    const short = this.#full !== undefined && this.#at.compare(this.#full) < 0;
    // A repeat may begin and end inside a bar: the piece after the sign counts with the one before it.
    const piece = short && (before?.repeatAfter || before?.doubleAfter || this.#open.repeatBefore) === true;
    this.measures.push({ ...this.#open, label: this.#label, length: this.#at, implicit: piece });
    this.#open = this.#begun();
    this.#at = ZERO;
    this.#bar.clear();
  }
}

const ALTERS: Readonly<Record<string, number>> = { natural: 0, sharp: 1, flat: -1, dblsharp: 2, dblflat: -2 };
