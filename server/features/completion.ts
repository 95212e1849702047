import { type Path, pathAt } from '../../grammar/at';
import { SETTINGS, settingKey } from '../../grammar/settings';
import { DYNAMICS } from '../../grammar/tokens';
import type { Span } from '../../grammar/tree';
import { parsePitch, semitone } from '../music/pitch';
import { CODES } from '../rules/check';
import { LEVELS } from '../rules/levels';
import { HINT_WORDS } from './hint-words';
import { passageOn } from './locate';
import { motifsIn } from './motifs';
import { reachableHarmonics } from './reachable';
import type { Reading } from './reading';

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

type Offer = Omit<Completion, 'span' | 'order' | 'text'> & { readonly text?: string };

/** The signs that open a list by themselves. A space is none: the Enter after it ends the line. */
export const COMPLETION_TRIGGERS: readonly string[] = ['[', ':'];

/** Characters of a line before the caret beyond which nothing is offered: the patterns below would take minutes over a line of megabytes. */
export const LONGEST_TYPED = 5_000;

/** What could be written at a place, likeliest first. */
export function completions(reading: Reading, offset: number): readonly Completion[] {
  const spot = pathAt(reading.tree, offset);
  const { line, column } = spot;
  if (column > LONGEST_TYPED) return [];
  const before = reading.tree.text.slice(line.start, line.start + column);
  const word = /[^\s[\](){}|+<>=,:]*$/.exec(before)?.[0] ?? '';
  const span = { start: offset - word.length, end: offset };
  return offers(reading, spot, before, word).map((offer, order) => ({ text: offer.label, ...offer, span, order }));
}

function offers(reading: Reading, spot: Path, before: string, word: string): readonly Offer[] {
  const check = /\/\/\s*check(?:\s+file)?\s*:(.*)$/.exec(before);
  if (check) return checkWords(check[1] ?? '', word);
  if (before.includes('//') || /^\s*>/.test(before)) return [];
  const value = /^\s*([a-z]+):\s*(.*)$/.exec(before);
  if (value) return valueWords(value[1] ?? '', value[2] ?? '');
  if (/\[[^\]]*$/.test(before)) return HINT_WORDS.map(({ text, meaning }) => ({ label: text, kind: 'hint', detail: meaning }));
  const change = /([\p{L}][\p{L}\d_-]*)\s+(?:(up|down|in|on)\s+)?\S*$/u.exec(before);
  const motif = change && motifsIn(reading.tree).some(({ name }) => name.text === change[1]);
  if (motif && change[2] !== undefined) return change[2] === 'up' || change[2] === 'down' ? INTERVAL_OFFERS : [];
  const start = before.trim() === word;
  return [
    ...(motif ? CHANGE_OFFERS : []),
    ...(start && word !== '' ? settingOffers() : []),
    ...musicOffers(reading, spot, before),
    ...(start && word === '' ? settingOffers() : []),
  ];
}

function checkWords(orders: string, word: string): readonly Offer[] {
  const current = orders.split(',').at(-1)?.trimStart() ?? '';
  const second = current.length > word.length;
  return second
    ? LEVELS.map((label) => ({
        label,
        kind: 'value',
        detail: label === 'off' ? 'Silences the check.' : `Reports it as: ${label}.`,
      }))
    : CODES.map((label) => ({ label, kind: 'value', detail: 'A check that this comment sets the level of.' }));
}

function valueWords(key: string, typed: string): readonly Offer[] {
  const setting = settingKey(key);
  if (!setting || /\s/.test(typed.trim())) return [];
  const words = setting.words.map((label): Offer => ({ label, kind: 'value', detail: setting.meaning }));
  const example: Offer = { label: setting.example, kind: 'value', detail: `For example. ${setting.meaning}` };
  // Only where nothing is typed yet: the example may hold spaces, and would be put behind them.
  return typed === '' && !setting.words.includes(setting.example) ? [...words, example] : words;
}

function settingOffers(): readonly Offer[] {
  return [
    { label: 'passage:', kind: 'setting', detail: 'Starts a passage.', text: 'passage: ' },
    ...SETTINGS.map(({ key, meaning }): Offer => ({ label: `${key}:`, kind: 'setting', detail: meaning, text: `${key}: ` })),
    {
      label: 'motif',
      kind: 'snippet',
      detail: 'Names a group of notes for reuse.',
      text: `motif \${1:name} = $0`,
      snippet: true,
    },
  ];
}

const CHANGE_OFFERS: readonly Offer[] = [
  { label: 'up', kind: 'word', detail: 'The motif higher by an interval: up M2.' },
  { label: 'down', kind: 'word', detail: 'The motif lower by an interval: down P4.' },
  { label: 'on', kind: 'word', detail: 'The motif beginning on a pitch: on E5.' },
  {
    label: 'in',
    kind: 'snippet',
    detail: 'The motif moved by steps of a key.',
    text: `in \${1:D} \${2|major,minor|} up \${3:2}`,
    snippet: true,
  },
  { label: 'backwards', kind: 'word', detail: 'The last note first.' },
];

const INTERVAL_OFFERS: readonly Offer[] = [
  ['m2', 'minor second'],
  ['M2', 'major second'],
  ['m3', 'minor third'],
  ['M3', 'major third'],
  ['P4', 'perfect fourth'],
  ['P5', 'perfect fifth'],
  ['m6', 'minor sixth'],
  ['M6', 'major sixth'],
  ['m7', 'minor seventh'],
  ['M7', 'major seventh'],
  ['P8', 'octave'],
].map(([label = '', detail = '']) => ({ label, kind: 'word', detail }));

const MUSIC_WORDS: readonly Offer[] = [
  { label: 'slur', kind: 'snippet', detail: 'Notes under one bow.', text: 'slur($0)', snippet: true },
  { label: 'down', kind: 'snippet', detail: 'Notes in one down bow.', text: 'down($0)', snippet: true },
  { label: 'up', kind: 'snippet', detail: 'Notes in one up bow.', text: 'up($0)', snippet: true },
  { label: 'slide', kind: 'word', detail: 'Slide into the harmonic that follows and let it ring.' },
  { label: 'rest', kind: 'word', detail: 'A rest.' },
  ...['1/1', '1/2', '1/4', '1/8', '1/16', '1/12'].map(
    (label): Offer => ({
      label,
      kind: 'word',
      detail: label === '1/12' ? 'Triplet eighths from here on.' : 'This duration from here on.',
    }),
  ),
  ...DYNAMICS.map((label): Offer => ({ label, kind: 'word', detail: 'This dynamic from here on.' })),
];

function musicOffers(reading: Reading, spot: Path, before: string): readonly Offer[] {
  const motifs = motifsIn(reading.tree).map(
    ({ name }): Offer => ({ label: name.text, kind: 'motif', detail: 'A motif of this file.' }),
  );
  return [...motifs, ...pitchOffers(reading, spot, before), ...MUSIC_WORDS];
}

/** Harmonics that can be had here, those nearest to the note before first: melodies move by small steps. */
function pitchOffers({ resolved }: Reading, { index }: Path, before: string): readonly Offer[] {
  const passage = resolved.passages[passageOn(resolved.passages, index)];
  if (!passage) return [];
  const near = lastKey(before) ?? lastKeyBefore(passage, index) ?? 86;
  const pitches = reachableHarmonics(passage.setup, /[A-G]b/.test(before));
  return [...pitches]
    .sort((a, b) => Math.abs(a.key - near) - Math.abs(b.key - near) || a.key - b.key)
    .map(({ name, surest, ways }) => ({
      label: `${name}o`,
      kind: 'pitch',
      detail: `${surest}${ways > 1 ? `, and ${ways - 1} more ${ways === 2 ? 'way' : 'ways'}` : ''}`,
    }));
}

function lastKey(before: string): number | undefined {
  const [, name = ''] = [...before.matchAll(/([A-G](?:#{0,2}|b{0,2})\d)[o°]?(?=[\s[+_)|]|$)/g)].at(-1) ?? [];
  const pitch = parsePitch(name);
  return pitch && semitone(pitch);
}

function lastKeyBefore(passage: Reading['resolved']['passages'][number], line: number): number | undefined {
  const event = passage.events.findLast(({ source, spec }) => source.line < line && spec.notes.length > 0);
  const asked = event?.spec.notes[0]?.asked;
  return asked && asked.kind === 'sounding' ? semitone(asked.pitch) : undefined;
}
