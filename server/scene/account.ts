import { t } from '../l10n/translate';
import type { SceneEvent, SceneNote } from '../protocol/scene';
import { breakingWords } from './breaking-words';
import { fingerWords, intervalWords, listed, mmWords, often, sentence, spokenPitch } from './words';

/**
 * What a person who can't see the drawing must hear: where in the music, what sounds, which fingers go
 * where, how sure it is, what is hard about it.
 */
export function accountOf(event: Omit<SceneEvent, 'account'>): string {
  const { bar, beat } = event;
  const place = t('bar {bar}, beat {beat}', { bar, beat });
  if (event.problem !== undefined)
    return `${sentence(t("{place}: {written} can't be played", { place, written: event.written }))} ${event.problem}`;
  if (event.notes.length === 0) return sentence(t('{place}: rest', { place }));
  const sounding = listed(event.notes.map((note) => spokenPitch(note.sounding)));
  const parts = [
    sentence(t('{place}: {sounding}, {duration} note', { place, sounding, duration: event.duration })),
    ...event.notes.map((note) => sentence(noteAccount(note, event.notes.length > 1))),
  ];
  if (event.barred) parts.push(t('One finger covers both strings.'));
  parts.push(...breakingWords(event.breaking));
  if (event.position !== undefined) parts.push(sentence(event.position));
  if (event.chance !== undefined) parts.push(sentence(comesOut(event.notes.length, often(event.chance))));
  return parts.join(' ');
}

function comesOut(notes: number, chance: string): string {
  if (notes > 2) return t('all notes come out {chance}', { chance });
  return notes > 1 ? t('both notes come out {chance}', { chance }) : t('comes out {chance}', { chance });
}

function noteAccount(note: SceneNote, several: boolean): string {
  const { string, stop, touch, tolerance } = note;
  const where = several
    ? t('{sounding} on string {string}', { sounding: spokenPitch(note.sounding), string })
    : t('on string {string}', { string });
  const account = mannerAccount(note, where, at(stop), at(touch));
  return tolerance === undefined || note.kind === 'open'
    ? account
    : t('{account}, with {tolerance} to spare on either side', { account, tolerance: mmWords(tolerance) });
}

function at(place: SceneNote['stop']): { readonly finger: string; readonly place: string; readonly pitch: string } {
  return {
    finger: fingerWords(place?.finger ?? ''),
    place: mmWords(place?.mm ?? 0),
    pitch: spokenPitch(place?.pitch ?? ''),
  };
}

function mannerAccount(
  { kind, touch, interval }: SceneNote,
  where: string,
  stopped: ReturnType<typeof at>,
  touched: ReturnType<typeof at>,
): string {
  switch (kind) {
    case 'open':
      return t('{where}, open', { where });
    case 'stopped':
      return t('{where}, stopped with the {finger} at {place}', { where, ...stopped });
    case 'natural':
      return t('{where}, natural harmonic: touch {fraction} of the string, at {place}, with the {finger}', {
        where,
        fraction: touch?.fraction ?? '',
        ...touched,
      });
    case 'artificial':
      return t(
        '{where}, {interval} harmonic: stop {pitch} with the {finger} at {place}, touch {touchedPitch} with the {touchingFinger} at {touchedPlace}',
        {
          where,
          interval: intervalWords(interval),
          ...stopped,
          touchedPitch: touched.pitch,
          touchingFinger: touched.finger,
          touchedPlace: touched.place,
        },
      );
  }
}
