import type { SceneNote, ScenePassage } from '../protocol/scene';
import type { Listening } from './listen';
import type { HeardNote } from './verdict';

/** Ways of sounding a note that are told apart in a summary, and what they are called. */
interface Row {
  readonly name: string;
  readonly notes: HeardNote[];
}

/** What a recording holds, in a few sentences for its player; cents are told against the tuning found in it. */
export function summaryOf({ takes, a4, tunedBy, seconds, refused }: Listening, passage: ScenePassage): readonly string[] {
  const name = passage.title ? `“${passage.title}”` : 'this passage';
  if (refused === 'silent') return ['Nothing is heard in this recording. Was the microphone on?'];
  if (refused === 'another')
    return [`This does not sound like ${name}, so nothing in it is judged. Is it a recording of another passage?`];
  const whole = takes.filter((take) => take.whole).length;
  const parts = takes.length - whole;
  const runs = [
    ...(whole > 0 ? [times(whole, 'whole take')] : []),
    ...(parts > 0 ? [times(parts, 'part or false start', 'parts or false starts')] : []),
  ];
  const by = tunedBy === 'fixed' ? 'by open strings and natural harmonics' : 'by all its notes';
  return [
    `${runs.join(' and ')} in ${Math.round(seconds)} s. Tuned to A4 = ${a4.toFixed(1)} Hz, ${by}.`,
    ...rowsOf(
      takes.flatMap(({ notes }) => notes),
      passage,
    ).map(rowWords),
  ];
}

function rowsOf(notes: readonly HeardNote[], { events }: ScenePassage): readonly Row[] {
  const rows = new Map<string, Row>();
  for (const heard of notes) {
    const scene = events[heard.event]?.notes[heard.note];
    if (!scene) continue;
    const name = nameOf(scene);
    const row = rows.get(name) ?? { name, notes: [] };
    row.notes.push(heard);
    rows.set(name, row);
  }
  return [...rows.values()];
}

function nameOf({ kind, interval }: SceneNote): string {
  if (kind === 'artificial') return `${interval} harmonics`;
  return kind === 'natural' ? 'natural harmonics' : kind === 'open' ? 'open strings' : 'stopped notes';
}

/** `Fourth harmonics: 7 of 10 spoke, 1 late, 2 as the stopped note; 3 not judged.` */
function rowWords({ name, notes }: Row): string {
  const judged = notes.filter(({ verdict }) => verdict !== 'not-judged');
  const spoke = judged.filter(({ verdict }) => verdict === 'spoke').length;
  const late = judged.filter(({ verdict }) => verdict === 'late').length;
  const silent = judged.filter(({ verdict }) => verdict === 'not-heard').length;
  const instead = new Map<string, number>();
  for (const { instead: other } of judged)
    if (other) instead.set(INSTEAD[other.source], (instead.get(INSTEAD[other.source]) ?? 0) + 1);
  const parts = [
    `${spoke} of ${judged.length} spoke`,
    ...(late > 0 ? [`${late} late`] : []),
    ...[...instead].map(([words, count]) => `${count} ${words}`),
    ...(silent > 0 ? [`${silent} not heard`] : []),
  ];
  const cents = judged.flatMap(({ verdict, intonation }) => (verdict === 'spoke' && intonation ? [intonation.cents] : []));
  const mean = cents.reduce((sum, each) => sum + Math.abs(each), 0) / Math.max(1, cents.length);
  const off = name === 'stopped notes' && cents.length > 0 ? `, ${Math.round(mean)} cents off on average` : '';
  const left = notes.length - judged.length;
  const words = `${name}: ${parts.join(', ')}${off}${left > 0 ? `; ${left} not judged` : ''}.`;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What sounded in a note's place, for players. */
export const INSTEAD = {
  written: 'as written',
  stopped: 'as the stopped note',
  touched: 'as the touched note, pressed down',
  partial: 'as another partial',
  open: 'as the open string',
  other: 'as another note',
} as const;

/** The verdict on one note, for players: `spoke, 4 cents high`, `as the stopped note`. */
export function verdictWords({ verdict, instead, late, intonation }: HeardNote): string {
  if (verdict === 'not-judged') return 'not judged';
  if (verdict === 'not-heard') return 'not heard';
  const cents = Math.round(intonation?.cents ?? 0);
  if (verdict === 'other')
    return `sounded ${INSTEAD[instead?.source ?? 'other']}${instead?.partial ? ` (${instead.partial})` : ''}`;
  const off = cents === 0 ? 'in tune' : `${Math.abs(cents)} cents ${cents > 0 ? 'high' : 'low'}`;
  return verdict === 'late' ? `spoke ${late} ms late, ${off}` : `spoke, ${off}`;
}

function times(count: number, one: string, more = `${one}s`): string {
  return `${count} ${count === 1 ? one : more}`;
}
