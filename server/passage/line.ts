import type { Saying } from '../../grammar/marks';
import { MOST_NOTES } from '../../grammar/note-parser';
import type { Dynamic, MusicLine } from '../../grammar/tree';
import { t } from '../l10n/translate';
import { type Exact, exactly, lasting, NO_TIME, one, sum } from '../music/time';
import type { Atom, BarAtom, EventAtom, RestAtom, Stroke } from './atom';
import { BarTrack } from './bar-track';
import { wrongBarsRest } from './bars-rest';
import { type Context, type HeldNote, NOTHING_PENDING, UNMARKED } from './context';
import { type Draft, draftEvent, finished, silentDraft } from './draft';
import { type Flat, flatten, MOTIF_ROOM, type MotifLookup } from './flatten';
import { giveTime } from './grace';
import type { LineMusic } from './line-music';
import { readNote } from './note';
import { isPlucked, turnsMark } from './ornament';
import type { NoteSpec } from './passage';
import { place, placed } from './placed';
import type { LineProblem } from './problem';
import { brokenTie, continued } from './tie';
import { wholeNote } from './whole-note';

/** Reads one line of music in its context. Pure: the same node, context and motifs give the same music. */
export function readMusicLine(node: MusicLine, context: Context, motifs: MotifLookup): LineMusic {
  return new LineReader(node, context, motifs).read();
}

class LineReader {
  readonly #flat: Flat;
  readonly #drafts: Draft[] = [];
  readonly #bars: BarTrack;
  readonly #problems: LineProblem[];
  #unmet: LineMusic['unmet'] = [];
  #leading = NO_TIME;
  #held: readonly HeldNote[];
  #ties: LineMusic['ties'] = [];
  #lastStroke: Stroke | undefined;
  #directions: Context['pending']['directions'];
  #says: Dynamic | undefined;
  #plucked: boolean;
  #restTold = false;
  /** Notes out of motifs, and bars out of rests of several. */
  #expanded: number;
  /** Grace notes that wait for the note they come before. */
  #graces: Draft[] = [];
  /** Whether anything on this line has continued, or cut off, the notes held into it. */
  #answered = false;
  /** Seconds in a whole note. */
  readonly #whole: Exact;

  constructor(
    node: MusicLine,
    readonly context: Context,
    motifs: MotifLookup,
  ) {
    this.#flat = flatten(node.items, motifs, context.exhausted ? 0 : MOTIF_ROOM);
    this.#problems = [...this.#flat.problems];
    this.#bars = new BarTrack(
      node,
      context,
      this.#flat.problems.map(({ span }) => span),
    );
    this.#expanded = this.#flat.expanded;
    this.#held = context.held;
    this.#directions = context.pending.directions;
    this.#says = context.pending.says;
    this.#plucked = context.plucked;
    this.#whole = wholeNote(context.tempo);
  }

  read(): LineMusic {
    const { context } = this;
    const { atoms, used, duration, dynamic } = this.#flat;
    for (const atom of atoms) {
      if (atom.kind === 'event') this.#event(atom);
      else if (atom.kind === 'rest') this.#rest(atom);
      else if (atom.kind === 'bar') this.#bar(atom);
      else if (atom.kind === 'direction') this.#direct(atom.word);
      else if (atom.kind === 'jump') this.#bars.jump(atom.word, this.#drafts.length);
      else this.#bars.ending(atom.times);
    }
    this.#afterGraces();
    return {
      events: this.#drafts.map((draft) => finished(draft, this.#whole)),
      bars: this.#bars.bars,
      closes: this.#bars.closed,
      leadingRest: this.#leading,
      lastRest: this.#drafts.at(-1)?.rest ?? NO_TIME,
      ties: this.#ties,
      unmet: this.#unmet,
      problems: [...this.#problems, ...this.#bars.problems],
      overfull: this.#bars.overfull,
      motifs: used,
      definers: [...new Set(this.#drafts.flatMap(({ event }) => (event.definition ? [event.definition.motif] : [])))],
      expanded: this.#expanded,
      out: {
        ...context,
        ...this.#bars.out,
        duration: duration ?? context.duration,
        dynamic: dynamic ?? context.dynamic,
        plucked: this.#plucked,
        begun: context.begun || this.#drafts.length > 0,
        held: this.#held,
        pending: this.#pending(),
      },
    };
  }

  /** A hairpin that ends before a bar line ends at it; all else that waits is for the next note. */
  #bar(atom: BarAtom): void {
    if (this.#directions.some(isHairpinEnd) && this.#bars.endHairpin())
      this.#directions = this.#directions.filter((word) => !isHairpinEnd(word));
    this.#bars.close(atom, this.#drafts.length);
  }

  #direct(word: Saying): void {
    this.#directions = [...this.#directions, word];
    if (word === 'pizz' || word === 'arco') this.#plucked = word === 'pizz';
  }

  #pending(): Context['pending'] {
    const bar = this.#bars.pending;
    const says = this.#flat.says ?? this.#says;
    const nothing = this.#directions.length + bar.jumps.length + bar.rests.length === 0 && !bar.ending && !says;
    return nothing ? NOTHING_PENDING : { directions: this.#directions, ...(says && { says }), ...bar };
  }

  #takeGraces(giver: Draft): void {
    giveTime(giver, this.#graces);
    this.#graces = [];
  }

  /** Grace notes that no note follows take their time from the one before. */
  #afterGraces(): void {
    giveTime(this.#drafts[this.#drafts.length - 1 - this.#graces.length], this.#graces);
    this.#graces = [];
  }

  #event(atom: EventAtom): void {
    const { context } = this;
    const written = atom.duration ?? context.duration;
    const turns = turnsMark(atom.marks);
    // The duration is that of two notes by turns together.
    const value = turns ? one(written.div(2)) : written;
    const length = atom.grace ? NO_TIME : value;
    const { string, ...both } = context.keep;
    const keep = atom.notes.length > 1 ? both : context.keep;
    const read = atom.notes.slice(0, MOST_NOTES).map((note) => ({
      note,
      ...readNote(note, context.setup, context.harmonics, {
        around: atom.around,
        keep,
        notes: Math.min(atom.notes.length, MOST_NOTES),
      }),
    }));
    for (const { problems } of read) this.#tell(problems, atom);
    const sound = read.flatMap(({ note, spec }) => (spec ? [{ note, spec }] : []));
    if (sound.length === 0) {
      this.#silence(atom, length, UNREADABLE);
      return;
    }
    const { specs, held, missed } = continued(
      this.#held,
      sound.map(({ spec }) => spec),
      context.setup.instrument,
    );
    this.#answer(missed);
    const tied = sound.flatMap(({ note, spec }, index) => (note.tie ? [{ note: index, tie: note.tie, spec }] : []));
    const last = this.#drafts.at(-1);
    if (last && atom.stroke && atom.stroke === this.#lastStroke) {
      last.slurred = true;
      last.event.bowsOn = true;
    }
    const opensStroke = atom.stroke !== undefined && atom.stroke !== this.#lastStroke;
    this.#lastStroke = atom.stroke;
    const outside = atom.definition && atom.span;
    const event = draftEvent(atom, length, this.#bars, context.tempo);
    event.notes = sound.map(({ note }) => placed(note, outside));
    if (opensStroke && atom.stroke?.direction) event.bow = atom.stroke.direction;
    const dynamic = atom.dynamic ?? context.dynamic;
    const says = atom.says ?? this.#says;
    if (says) event.says = says;
    this.#says = undefined;
    if (atom.marks) event.marks = atom.marks;
    if (atom.grace) event.grace = value;
    if (this.#directions.length > 0) event.directions = this.#directions;
    this.#directions = [];
    const draft: Draft = {
      event,
      specs,
      slide: atom.slide,
      plucked: this.#plucked || isPlucked(atom.marks),
      alternates: turns !== undefined && !last?.alternates && turnsMark(last?.event.marks) === turns,
      dynamic: dynamic ?? UNMARKED,
      held,
      sounds: length,
      rest: NO_TIME,
      // A tied note goes on sounding, so the bow doesn't turn before its continuation.
      slurred: tied.length > 0,
    };
    this.#drafts.push(draft);
    if (atom.grace) this.#graces.push(draft);
    else this.#takeGraces(draft);
    this.#held = tied.map(({ note }) => ({
      note,
      asked: (specs[note] as NoteSpec).asked,
      harmonic: (specs[note] as NoteSpec).harmonic,
    }));
    this.#ties = tied.map(({ note, tie }) => ({ note, span: outside ?? place(tie), origin: atom.definition }));
    if (!atom.grace) this.#bars.fill(length, outside ? undefined : atom.span.start);
  }

  /** A rest of whole bars: as many rests of one, with the bar lines between them. */
  #barsRest(atom: RestAtom, bars: number): void {
    const { meter } = this.context;
    const room = Math.max(0, (this.context.exhausted ? 0 : MOTIF_ROOM) - this.#expanded);
    const wrong = wrongBarsRest(atom, bars, meter, room);
    if (!meter || wrong) {
      // A motif may say it thousands of times.
      if (wrong && !this.#restTold) this.#problems.push(wrong);
      this.#restTold = true;
      if (meter) this.#silence(atom, exactly(meter.count, meter.unit), t('a rest comes between'));
      return;
    }
    this.#expanded += bars;
    this.#bars.restFor(bars);
    const line = { kind: 'bar', style: '|', span: { start: atom.span.start, end: atom.span.start } } as const;
    for (let bar = 0; bar < bars; bar++) {
      if (bar > 0) this.#bars.close(atom.definition ? { ...line, definition: atom.definition } : line, this.#drafts.length);
      this.#silence(atom, exactly(meter.count, meter.unit), t('a rest comes between'));
    }
  }

  #rest(atom: RestAtom): void {
    if (!atom.unreadable) {
      const says = atom.says ?? this.#says;
      this.#bars.rest({
        ...(atom.marks && { marks: atom.marks }),
        ...(this.#directions.length > 0 && { directions: this.#directions }),
        ...(says && { says }),
      });
      this.#directions = [];
      this.#says = undefined;
    }
    if (atom.bars !== undefined) this.#barsRest(atom, atom.bars);
    else this.#silence(atom, atom.duration ?? this.context.duration, atom.unreadable ? UNREADABLE : t('a rest comes between'));
  }

  /** Keeps what is wrong with a note; that of a motif's note is told at the use, with nothing to mend there. */
  #tell(problems: readonly LineProblem[], { span, definition }: EventAtom): void {
    for (const problem of problems) {
      this.#problems.push(definition ? { ...problem, span, fixes: [], origin: definition } : problem);
    }
  }

  /** Lets time go by without sound: the rest of the event before, or an event without notes at the head of a passage. */
  #silence({ span, definition }: Pick<Atom, 'span' | 'definition'>, length: Exact, why: string | typeof UNREADABLE): void {
    // What comes of a tie into an unreadable note is told when the note can be read.
    this.#answer(why === UNREADABLE ? [] : this.#held.map(({ note }) => ({ note, why })));
    this.#held = [];
    this.#afterGraces();
    const time = lasting(length, this.#whole);
    const last = this.#drafts.at(-1);
    if (last) {
      last.rest = sum(last.rest, time);
    } else if (this.context.begun) {
      this.#leading = sum(this.#leading, time);
    } else {
      this.#drafts.push(
        silentDraft(draftEvent({ span }, length, this.#bars, this.context.tempo), this.context.dynamic ?? UNMARKED, time),
      );
    }
    this.#bars.fill(length, definition ? undefined : span.start);
  }

  /** Tells the ties that lead to the note or rest at hand what became of them. */
  #answer(missed: readonly { readonly note: number; readonly why: string }[]): void {
    if (!this.#answered && this.#drafts.length === 0) this.#unmet = missed;
    else {
      for (const { note, why } of missed) {
        const tie = this.#ties.find((known) => known.note === note);
        if (tie) this.#problems.push(brokenTie(tie, why));
      }
    }
    this.#answered = true;
    this.#ties = [];
  }
}

function isHairpinEnd(word: Saying): boolean {
  return word === 'end crescendo' || word === 'end diminuendo';
}

/** Stands for the reason that a note could not be read. */
const UNREADABLE = Symbol('unreadable');
