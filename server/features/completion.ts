import { lineAt } from '../../grammar/at';
import { type Caret, caretAt } from '../../grammar/caret';
import { DIRECTIONS, DYNAMICS, JUMPS, MARKS, STRESSES } from '../../grammar/marks';
import { SETTINGS } from '../../grammar/settings';
import type { Span } from '../../grammar/tree';
import { knownSizes } from '../instrument/build';
import type { Family } from '../instrument/instrument';
import { later, t } from '../l10n/translate';
import { semitone } from '../music/pitch';
import { CODES } from '../rules/check';
import { LEVELS } from '../rules/levels';
import { HINT_WORDS } from './hint-words';
import { passageOn } from './locate';
import { motifsIn } from './motifs';
import { soundingOffers, touchOffers } from './printed-offers';
import { reachableHarmonics } from './reachable';
import type { SolvedReading } from './reading';
import { NOTE_SNIPPETS, SNIPPETS } from './snippets';
import { wayOffers } from './way-offers';

export type CompletionKind = 'pitch' | 'setting' | 'value' | 'hint' | 'motif' | 'word' | 'snippet';

export interface Completion {
  readonly label: string;
  readonly kind: CompletionKind;
  readonly detail: string;
  /** What it replaces. */
  readonly span: Span;
  readonly text: string;
  /** `text` holds tab stops, `$1` and `$0`. */
  readonly snippet?: boolean;
  /** Sorts before others with a greater one. */
  readonly order: number;
}

const FAMILIES: readonly Family[] = ['violin', 'viola', 'cello'];

export type Offer = Omit<Completion, 'span' | 'order' | 'text'> & { readonly text?: string };

/** The signs that open a list by themselves. A space is none: the Enter after it ends the line. */
export const COMPLETION_TRIGGERS: readonly string[] = ['[', ':', '>', '='];

/** What could be written at a place, likeliest first. */
export function completions(reading: SolvedReading, offset: number): readonly Completion[] {
  const caret = caretAt(reading.tree, offset);
  const span = caret.word;
  return offers(reading, caret, offset).map((offer, order) => ({ text: offer.label, ...offer, span, order }));
}

function offers(reading: SolvedReading, caret: Caret, offset: number): readonly Offer[] {
  switch (caret.kind) {
    case 'code':
      return CODES.map((label) => ({ label, kind: 'value', detail: t('A check whose level this comment sets.') }));
    case 'level':
      return LEVELS.map((label) => {
        const detail = label === 'off' ? t('Silences the check.') : t('Reports it as: {label}.', { label });
        return { label, kind: 'value', detail };
      });
    case 'value':
      return valueOffers(caret);
    case 'hints':
      return [
        ...wayOffers(reading, offset, caret.before),
        ...HINT_WORDS.map(({ text, meaning }): Offer => ({ label: text, kind: 'hint', detail: t(meaning) })),
      ];
    case 'touch':
    case 'sounding': {
      const passage = reading.resolved.passages[passageOn(reading.resolved.passages, lineAt(reading.tree, offset))];
      if (!passage) return [];
      if (caret.kind === 'touch') return touchOffers(passage.setup, caret.stop);
      const text = reading.tree.text[offset - 1] === '=' ? ' ' : '';
      return soundingOffers(passage.setup, caret.stop, caret.touch).map((offer) => ({ ...offer, text: `${text}${offer.label}` }));
    }
    case 'change':
      return caret.change === 'up' || caret.change === 'down' ? INTERVAL_OFFERS.map(told) : [];
    case 'music': {
      const typed = caret.word.end > caret.word.start;
      const motif = caret.motif !== undefined && motifsIn(reading.tree).some(({ name }) => name.text === caret.motif);
      // In an empty file everything begins with what is played on, and with an example.
      if (caret.start && isEmpty(reading))
        return [...settingOffers(), ...SNIPPETS.map(told), ...musicOffers(reading, caret, lineAt(reading.tree, offset))];
      return [
        ...(motif ? CHANGE_OFFERS.map(told) : []),
        ...(caret.start && typed ? settingOffers() : []),
        ...musicOffers(reading, caret, lineAt(reading.tree, offset)),
        ...(caret.start ? SNIPPETS.map(told) : []),
        ...(caret.start && !typed ? settingOffers() : []),
      ];
    }
    default:
      return [];
  }
}

/** The words that the grammar expects, the sizes of an instrument behind its name, and an example where nothing stands yet. */
export function valueOffers({ key, before, words, word }: Extract<Caret, { kind: 'value' }>): readonly Offer[] {
  const { meaning, example } = key;
  const offer = (label: string): Offer => ({ label, kind: 'value', detail: t(meaning) });
  const family = key.value === 'instrument' && before.length === 1 && FAMILIES.find((name) => name === before[0]?.toLowerCase());
  const known = [...words, ...(family ? knownSizes(family) : [])].map(offer);
  const empty = before.length === 0 && word.start === word.end;
  return empty && !words.includes(example)
    ? [...known, { ...offer(example), detail: t('For example. {meaning}', { meaning: t(meaning) }) }]
    : known;
}

/** No line but the one that is being typed says anything. */
function isEmpty({ tree, resolved }: SolvedReading): boolean {
  return resolved.passages.length === 0 && tree.lines.every(({ node }) => node.kind !== 'setting' && node.kind !== 'passage');
}

function settingOffers(): readonly Offer[] {
  return [
    { label: 'passage:', kind: 'setting', detail: t('Starts a passage.'), text: 'passage: ' },
    ...SETTINGS.map(
      ({ key, meaning, example }): Offer => ({
        label: `${key}:`,
        kind: 'setting',
        detail: t('{meaning} For example: {key}: {example}', { meaning: t(meaning), key, example }),
        text: `${key}: `,
      }),
    ),
    {
      label: 'motif',
      kind: 'snippet',
      detail: t('Names a group of notes for reuse.'),
      text: `motif \${1:name} = $0`,
      snippet: true,
    },
  ];
}

/** Of a table: in the reader's language. */
function told({ detail, ...offer }: Offer): Offer {
  return { ...offer, detail: t(detail) };
}

const CHANGE_OFFERS: readonly Offer[] = [
  { label: 'up', kind: 'word', detail: later('The motif higher by an interval: up M2.') },
  { label: 'down', kind: 'word', detail: later('The motif lower by an interval: down P4.') },
  { label: 'on', kind: 'word', detail: later('The motif beginning on a pitch: on E5.') },
  {
    label: 'in',
    kind: 'snippet',
    detail: later('The motif moved by steps of a key.'),
    text: `in \${1:D} \${2|major,minor|} up \${3:2}`,
    snippet: true,
  },
  { label: 'backwards', kind: 'word', detail: later('The last note first.') },
];

const INTERVAL_OFFERS: readonly Offer[] = [
  ['m2', later('minor second')],
  ['M2', later('major second')],
  ['m3', later('minor third')],
  ['M3', later('major third')],
  ['P4', later('perfect fourth')],
  ['P5', later('perfect fifth')],
  ['m6', later('minor sixth')],
  ['M6', later('major sixth')],
  ['m7', later('minor seventh')],
  ['M7', later('major seventh')],
  ['P8', later('octave')],
].map(([label = '', detail = '']) => ({ label, kind: 'word', detail }));

const MUSIC_WORDS: readonly Offer[] = [
  { label: 'slur', kind: 'snippet', detail: later('Notes under one bow.'), text: 'slur($0)', snippet: true },
  { label: 'down', kind: 'snippet', detail: later('Notes in one down bow.'), text: 'down($0)', snippet: true },
  { label: 'up', kind: 'snippet', detail: later('Notes in one up bow.'), text: 'up($0)', snippet: true },
  { label: 'slide', kind: 'word', detail: later('Slide into the harmonic that follows and let it ring.') },
  { label: 'rest', kind: 'word', detail: later('A rest.') },
  { label: 'rest 4 bars', kind: 'word', detail: later('A rest of whole bars, printed as one.') },
  ...['1/1', '1/2', '1/4', '1/8', '1/16', '1/12'].map(
    (label): Offer => ({
      label,
      kind: 'word',
      detail: label === '1/12' ? later('Triplet eighths from here on.') : later('This duration from here on.'),
    }),
  ),
  ...DYNAMICS.map((label): Offer => ({ label, kind: 'word', detail: later('This dynamic from here on.') })),
  ...STRESSES.map(
    (label): Offer => ({
      label,
      kind: 'word',
      detail: label.endsWith('p') ? later('Stressed, then soft.') : later('A stress on the next note.'),
    }),
  ),
  ...[...MARKS, ...DIRECTIONS, ...JUMPS].map(({ word, meaning }): Offer => ({ label: word, kind: 'word', detail: meaning })),
  { label: 'ending 1', kind: 'word', detail: later('The bars from here to the repeat sign are played the first time only.') },
];

type Music = Extract<Caret, { kind: 'music' }>;

function musicOffers(reading: SolvedReading, caret: Music, line: number): readonly Offer[] {
  const motifs = motifsIn(reading.tree).map(
    ({ name }): Offer => ({ label: name.text, kind: 'motif', detail: t('A motif of this file.') }),
  );
  return [...motifs, ...pitchOffers(reading, caret, line), ...[...NOTE_SNIPPETS, ...MUSIC_WORDS].map(told)];
}

/** Harmonics that can be had here, those nearest to the note before first: melodies move by small steps. */
function pitchOffers({ resolved }: SolvedReading, { pitches: before }: Music, line: number): readonly Offer[] {
  const passage = resolved.passages[passageOn(resolved.passages, line)];
  if (!passage) return [];
  const last = before.at(-1);
  const near = (last && semitone(last)) ?? lastKeyBefore(passage, line) ?? 86;
  const flats = before.some(({ alter }) => alter < 0);
  return [...reachableHarmonics(passage.setup, flats)]
    .sort((a, b) => Math.abs(a.key - near) - Math.abs(b.key - near) || a.key - b.key)
    .map(({ name, surest, ways }) => ({
      label: `${name}o`,
      kind: 'pitch',
      detail:
        ways === 1
          ? surest
          : ways === 2
            ? t('{surest}, and 1 more way', { surest })
            : t('{surest}, and {count} more ways', { surest, count: ways - 1 }),
    }));
}

function lastKeyBefore(passage: SolvedReading['resolved']['passages'][number], line: number): number | undefined {
  const event = passage.events.findLast(({ source, spec }) => source.line < line && spec.notes.length > 0);
  const asked = event?.spec.notes[0]?.asked;
  return asked && asked.kind === 'sounding' ? semitone(asked.pitch) : undefined;
}
