import { MANNERS } from '../../grammar/hint-names';
import { printForm } from '../../grammar/print';
import type { Finger, Hint, HintList, Manner, NoteForm, NoteNode, Span, TouchInterval } from '../../grammar/tree';
import { ARTIFICIAL_NODES, type Node, touchInterval, touchWords } from '../instrument/nodes';
import { later, t } from '../l10n/translate';
import type { Pins } from './passage';
import { error, type LineProblem } from './problem';
import type { Keep } from './values';

/** A hint, or the way a note is written, seen as what it leaves open. */
interface Claim {
  readonly name: string;
  readonly manners: readonly Manner[];
}

const FINGERED: readonly Manner[] = ['stopped', 'natural', 'artificial'];
const HARMONIC: readonly Manner[] = ['natural', 'artificial'];

export interface ReadPins {
  readonly pins: Pins;
  /** The ways of making the note that its form and its hints leave. */
  readonly manners: readonly Manner[];
  readonly problems: readonly LineProblem[];
}

/** Hints that hold for more than one note. */
export interface About {
  /** Of the groups that a note stands in, innermost first. */
  readonly around?: readonly HintList[] | undefined;
  readonly keep?: Keep;
  /** Notes that sound together, itself among them. */
  readonly notes?: number;
}

/**
 * Turns the hints of a note into pins, its own and those of the groups that it stands in, and what notes keep to there. Where two
 * of its own, or a hint and the way the note is written, can't both hold, the later one is reported on its own characters and
 * left out. Of two hints of one kind the first holds; the reader of the text reports the second. A group's hint gives way to
 * whatever stands nearer to the note: that is an exception, no mistake.
 */
export function readPins(note: NoteNode, { around = [], keep = {}, notes = 1 }: About, thumb: boolean): ReadPins {
  const form = formClaim(note.form);
  const claims: Claim[] = [form];
  let pins: Pins = {};
  const problems: LineProblem[] = [];
  const taken: Hint[] = [];
  const take = (hint: Hint, claim: Claim) => {
    taken.push(hint);
    claims.push(claim);
    pins = { ...pins, ...pinned(hint) };
  };
  const hints = note.hints?.hints ?? [];
  for (const hint of hints) {
    if (hint.kind in pins) continue;
    const claim = hintClaim(hint);
    const against = claims.find((other) => apart(claim, other));
    const why = against
      ? t("{one} and {other} can't both hold", { one: claim.name, other: against.name })
      : (brokenBadly(hint, notes) ?? clash(hint, pins, note.form, thumb));
    if (why) problems.push(contradiction(hint, why, withSpace(note, hints.indexOf(hint))));
    else take(hint, claim);
  }
  for (const hint of around.flatMap((list) => list.hints)) {
    if (taken.some((nearer) => sameQuestion(nearer, hint)) || brokenBadly(hint, notes)) continue;
    const claim = hintClaim(hint);
    const why = apart(claim, form)
      ? t("{one} and {other} can't both hold", { one: claim.name, other: form.name })
      : clash(hint, {}, note.form, thumb);
    if (why) problems.push(groupContradiction(hint, why, note));
    else if (!claims.some((other) => apart(claim, other)) && !clash(hint, pins, note.form, thumb)) take(hint, claim);
  }
  const manners = MANNERS.filter((manner) => claims.every((claim) => claim.manners.includes(manner)));
  return { pins: keeping(pins, keep, manners), problems, manners };
}

/** A note whose hints ask for the open string is an exception from all but the position. */
function keeping(pins: Pins, { string, position, open }: Keep, manners: readonly Manner[]): Pins {
  const openAsked = manners.every((manner) => manner === 'open');
  return {
    ...(string !== undefined && !openAsked && { string }),
    ...(position !== undefined && { position }),
    ...(open === false && manners.includes('open') && !openAsked && { open }),
    ...pins,
  };
}

function apart(one: Claim, other: Claim): boolean {
  return !one.manners.some((manner) => other.manners.includes(manner));
}

/** Do two hints answer the same question about a note? `2` and `1-4` both say which fingers play it. */
export function sameQuestion(one: Hint, other: Hint): boolean {
  const question = ({ kind }: Hint) => (kind === 'fingers' ? 'finger' : kind);
  return question(one) === question(other);
}

function groupContradiction(hint: Hint, why: string, { form }: NoteNode): LineProblem {
  const message = t(
    "This hint can't be met for {form}, which it also applies to: {why}. Give that note a hint of its own, or take it out of the parentheses.",
    { form: printForm(form), why },
  );
  return error('hint-contradiction', hint, message);
}

function contradiction(hint: Hint, why: string, gone: Span): LineProblem {
  const message = t("This hint can't be met: {why}. Keep one of them.", { why });
  return error('hint-contradiction', hint, message, [{ title: t('Remove this hint'), edits: [{ span: gone, text: '' }] }]);
}

/** A hint with the space that goes with it; the only one takes its brackets along. */
function withSpace({ form, expected, tie, hints }: NoteNode, index: number): Span {
  const all = hints?.hints ?? [];
  const [before, hint, after] = [all[index - 1], all[index], all[index + 1]];
  if (!hint || !hints) return { start: form.end, end: form.end };
  if (before) return { start: before.end, end: hint.end };
  return after
    ? { start: hint.start, end: after.start }
    : { start: Math.max(form.end, expected?.end ?? 0, tie?.end ?? 0), end: hints.end };
}

function formClaim(form: NoteForm): Claim {
  if (form.kind === 'artificial') return { name: t('the printed artificial harmonic'), manners: ['artificial'] };
  if (form.kind === 'diamond') return { name: t('the lone diamond, a natural harmonic'), manners: ['natural'] };
  return form.circle
    ? { name: t('the circle, which asks for a harmonic'), manners: HARMONIC }
    : { name: t('the note'), manners: MANNERS };
}

function hintClaim(hint: Hint): Claim {
  switch (hint.kind) {
    case 'string':
    case 'position':
    case 'breaking':
      return { name: t('this hint'), manners: MANNERS };
    case 'manner':
      return { name: `“${hint.manner}”`, manners: [hint.manner] };
    case 'finger':
      return hint.finger === 0
        ? { name: t('the open string (0)'), manners: ['open'] }
        : { name: fingerName(hint.finger), manners: FINGERED };
    case 'fingers':
      return {
        name: t('the two fingers {stop}-{touch} of an artificial harmonic', { stop: hint.stop, touch: hint.touch }),
        manners: ['artificial'],
      };
    case 'interval':
      return { name: t('the artificial harmonic “{interval}”', { interval: hint.interval }), manners: ['artificial'] };
    case 'node':
      return { name: t('a touch at {k}/{n}', { k: hint.k, n: hint.n }), manners: HARMONIC };
  }
}

function pinned(hint: Hint): Pins {
  if (hint.kind === 'fingers') return { fingers: { stop: hint.stop, touch: hint.touch } };
  if (hint.kind === 'node') return { node: { k: hint.k, n: hint.n } };
  const { kind, start, end, ...pin } = hint;
  return pin;
}

/** Why the bow can't break so many notes as a hint says; `undefined` for other hints and where it can. */
function brokenBadly(hint: Hint, notes: number): string | undefined {
  if (hint.kind !== 'breaking') return undefined;
  if (notes < 3)
    return notes === 1
      ? t('only a chord of three or four notes is broken, and this is one note')
      : t('only a chord of three or four notes is broken, and these are two');
  if (notes === 4 && hint.breaking === 'together')
    return t('no bow takes four strings at once; a chord of four notes is broken 2+2');
  const asked = hint.breaking === '2+2' ? 4 : 3;
  return asked === notes
    ? undefined
    : t('“{breaking}” is for {asked} notes, and this chord has {notes}', { breaking: hint.breaking, asked, notes });
}

/** Why a hint can't hold beside the pins before it and the form of the note; `undefined` when it can. */
function clash(hint: Hint, pins: Pins, form: NoteForm, thumb: boolean): string | undefined {
  switch (hint.kind) {
    case 'finger':
      return hint.finger === 'T' && !thumb ? t(NO_THUMB) : undefined;
    case 'fingers':
      return fingersClash(hint.stop, hint.touch, thumb);
    case 'interval': {
      const printed = form.kind === 'artificial' ? touchInterval(form.stop, form.touch) : undefined;
      if (printed && printed !== hint.interval)
        return t('the printed fingers are a {printed} apart, not a {interval}', {
          printed: touchWords(printed),
          interval: touchWords(hint.interval),
        });
      if (pins.node && !sameNode(pins.node, ARTIFICIAL_NODES[hint.interval])) return nodeClash(hint.interval, pins.node);
      return undefined;
    }
    case 'node': {
      const interval = pins.interval ?? (form.kind === 'artificial' ? touchInterval(form.stop, form.touch) : undefined);
      return interval && !sameNode(hint, ARTIFICIAL_NODES[interval]) ? nodeClash(interval, hint) : undefined;
    }
    default:
      return undefined;
  }
}

const NO_THUMB = later('the thumb comes up onto the string on the cello only');

function fingersClash(stop: Finger, touch: Finger, thumb: boolean): string | undefined {
  if ((stop === 'T' || touch === 'T') && !thumb) return t(NO_THUMB);
  if (stop === 0 || touch === 0) {
    return t(
      'an artificial harmonic needs a finger to stop the string and another to touch it; on the open string it is a natural one',
    );
  }
  if (touch === 'T' || (stop !== 'T' && touch <= stop)) {
    return t('the touching finger lies nearer the bridge, so it must be a higher one than the stopping finger, as in 1-4');
  }
  return undefined;
}

function fingerName(finger: Finger): string {
  return finger === 'T' ? t('the thumb') : finger === 0 ? t('the open string') : t('finger {finger}', { finger });
}

function sameNode(a: Node, b: Node): boolean {
  return a.k * b.n === b.k * a.n;
}

function nodeClash(interval: TouchInterval, { k, n }: Node): string {
  const wanted = ARTIFICIAL_NODES[interval];
  return t('fingers a {interval} apart touch the string at {k}/{n}, not at {askedK}/{askedN}', {
    interval: touchWords(interval),
    k: wanted.k,
    n: wanted.n,
    askedK: k,
    askedN: n,
  });
}
