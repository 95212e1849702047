import type { Span } from '../../grammar/tree';
import type { Instrument } from '../instrument/instrument';
import { t } from '../l10n/translate';
import { semitone } from '../music/pitch';
import type { HeldNote } from './context';
import type { Asked, EventSpec, NoteSpec } from './passage';
import { error, type LineProblem, type MotifPlace } from './problem';
import { sounding, soundingNames } from './sounding';

/** The mark of a tie, for the problem of one that leads nowhere. */
export interface Tie {
  readonly note: number;
  readonly span: Span;
  readonly origin: MotifPlace | undefined;
}

export interface Continued {
  /** The notes, those that are held made the same sound as before. */
  readonly specs: readonly NoteSpec[];
  readonly held: EventSpec['held'];
  readonly missed: readonly { readonly note: number; readonly why: string }[];
}

/**
 * Finds for each held note the note that goes on with it. A held note is one sound, so its continuation
 * takes over how it was asked for: in `D6o_ D6` the second note is the same harmonic.
 */
export function continued(held: readonly HeldNote[], notes: readonly NoteSpec[], instrument: Instrument): Continued {
  const specs = [...notes];
  const pairs: (readonly [number, number])[] = [];
  const missed: { note: number; why: string }[] = [];
  for (const before of held) {
    const wanted = pitches(before.asked, instrument);
    const free = specs.findIndex(
      ({ asked }, index) => !pairs.some(([, here]) => here === index) && meets(wanted, pitches(asked, instrument)),
    );
    const here = specs[free];
    if (!here) {
      missed.push({
        note: before.note,
        why: t('the next note is not {pitch}', { pitch: soundingNames(sounding(before.asked, instrument)) }),
      });
    } else if (before.harmonic === 'no' && here.harmonic === 'must') {
      missed.push({ note: before.note, why: t('the next note is a harmonic and this one is not, so it must be played again') });
    } else {
      pairs.push([before.note, free]);
      specs[free] = { ...here, asked: before.asked, harmonic: before.harmonic };
    }
  }
  return { specs, held: pairs, missed };
}

function pitches(asked: Asked, instrument: Instrument): ReadonlySet<number> {
  return new Set(sounding(asked, instrument).map(({ pitch }) => semitone(pitch)));
}

function meets(a: ReadonlySet<number>, b: ReadonlySet<number>): boolean {
  return [...a].some((pitch) => b.has(pitch));
}

/** The problem of a tie that leads nowhere. */
export function brokenTie({ span, origin }: Tie, why: string): LineProblem {
  const message = t(
    'This note is held over, but {why}. A tie needs the same pitch as the very next note; write it, or remove the _.',
    { why },
  );
  if (origin) return { ...error('tie-broken', span, message), origin };
  return error('tie-broken', span, message, [{ title: t('Remove the tie'), edits: [{ span, text: '' }] }]);
}
