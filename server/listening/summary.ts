import { later, t } from '../l10n/translate';
import type { SceneNote, ScenePassage } from '../protocol/scene';
import { capital, intervalWords, listed } from '../scene/words';
import type { Listening } from './listen';
import type { HeardNote } from './verdict';

/** Ways of sounding a note that are told apart in a summary, and what they are called. */
interface Row {
  readonly name: string;
  readonly kind: SceneNote['kind'];
  readonly notes: HeardNote[];
}

/** What a recording holds, in a few sentences for its player; cents are told against the tuning found in it. */
export function summaryOf({ takes, a4, tunedBy, seconds, refused }: Listening, passage: ScenePassage): readonly string[] {
  if (refused === 'silent') return [t('Nothing is heard in this recording. Was the microphone on?')];
  if (refused === 'another')
    return [
      passage.title
        ? t('This does not sound like “{title}”, so nothing in it is judged. Is it a recording of another passage?', {
            title: passage.title,
          })
        : t('This does not sound like this passage, so nothing in it is judged. Is it a recording of another passage?'),
    ];
  const whole = takes.filter((take) => take.whole).length;
  const parts = takes.length - whole;
  const runs = [
    ...(whole === 1 ? [t('1 whole take')] : whole > 1 ? [t('{count} whole takes', { count: whole })] : []),
    ...(parts === 1 ? [t('1 part or false start')] : parts > 1 ? [t('{count} parts or false starts', { count: parts })] : []),
  ];
  const holes = { runs: listed(runs), seconds: Math.round(seconds), a4: a4.toFixed(1) };
  return [
    tunedBy === 'fixed'
      ? t('{runs} in {seconds} s. Tuned to A4 = {a4} Hz, by open strings and natural harmonics.', holes)
      : t('{runs} in {seconds} s. Tuned to A4 = {a4} Hz, by all its notes.', holes),
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
    const row = rows.get(name) ?? { name, kind: scene.kind, notes: [] };
    row.notes.push(heard);
    rows.set(name, row);
  }
  return [...rows.values()];
}

function nameOf({ kind, interval }: SceneNote): string {
  if (kind === 'artificial') return t('{interval} harmonics', { interval: intervalWords(interval) });
  return kind === 'natural' ? t('natural harmonics') : kind === 'open' ? t('open strings') : t('stopped notes');
}

/** `Fourth harmonics: 7 of 10 spoke, 1 late, 2 as the stopped note; 3 not judged.` */
function rowWords({ name, kind, notes }: Row): string {
  const judged = notes.filter(({ verdict }) => verdict !== 'not-judged');
  const spoke = judged.filter(({ verdict }) => verdict === 'spoke').length;
  const late = judged.filter(({ verdict }) => verdict === 'late').length;
  const silent = judged.filter(({ verdict }) => verdict === 'not-heard').length;
  const instead = new Map<string, number>();
  for (const { instead: other } of judged) {
    const how = other && t(INSTEAD[other.source]);
    if (how) instead.set(how, (instead.get(how) ?? 0) + 1);
  }
  const parts = [
    t('{spoke} of {judged} spoke', { spoke, judged: judged.length }),
    ...(late > 0 ? [t('{late} late', { late })] : []),
    ...[...instead].map(([words, count]) => t('{count} {how}', { count, how: words })),
    ...(silent > 0 ? [t('{silent} not heard', { silent })] : []),
  ];
  const cents = judged.flatMap(({ verdict, intonation }) => (verdict === 'spoke' && intonation ? [intonation.cents] : []));
  const mean = cents.reduce((sum, each) => sum + Math.abs(each), 0) / Math.max(1, cents.length);
  const told = parts.join(', ');
  const sounded =
    kind === 'stopped' && cents.length > 0 ? t('{told}, {mean} cents off on average', { told, mean: Math.round(mean) }) : told;
  const left = notes.length - judged.length;
  return capital(
    left > 0 ? t('{name}: {sounded}; {left} not judged.', { name, sounded, left }) : t('{name}: {sounded}.', { name, sounded }),
  );
}

/** What sounded in a note's place, for players. */
export const INSTEAD = {
  written: later('as written'),
  stopped: later('as the stopped note'),
  touched: later('as the touched note, pressed down'),
  partial: later('as another partial'),
  open: later('as the open string'),
  other: later('as another note'),
} as const;

/** The verdict on one note, for players: `spoke, 4 cents high`, `as the stopped note`. */
export function verdictWords({ verdict, instead, late, intonation }: HeardNote): string {
  if (verdict === 'not-judged') return t('not judged');
  if (verdict === 'not-heard') return t('not heard');
  const cents = Math.round(intonation?.cents ?? 0);
  if (verdict === 'other')
    return instead?.partial
      ? t('sounded {how} ({partial})', { how: t(INSTEAD[instead.source]), partial: instead.partial })
      : t('sounded {how}', { how: t(INSTEAD[instead?.source ?? 'other']) });
  const size = { cents: Math.abs(cents) };
  const off = cents === 0 ? t('in tune') : cents > 0 ? t('{cents} cents high', size) : t('{cents} cents low', size);
  return verdict === 'late' ? t('spoke {late} ms late, {off}', { late: late ?? 0, off }) : t('spoke, {off}', { off });
}
