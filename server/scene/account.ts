import type { SceneEvent, SceneNote } from '../protocol/scene';
import { breakingWords } from './breaking-words';
import { fingerWords, intervalWords, listed, mmWords, often, sentence, spokenPitch } from './words';

/**
 * What a person who can't see the drawing must hear: where in the music, what sounds, which fingers go
 * where, how sure it is, what is hard about it.
 */
export function accountOf(event: Omit<SceneEvent, 'account'>): string {
  const place = `bar ${event.bar}, beat ${event.beat}`;
  if (event.problem !== undefined) return `${sentence(`${place}: ${event.written} can't be played`)} ${event.problem}`;
  if (event.notes.length === 0) return sentence(`${place}: rest`);
  const sounding = listed(event.notes.map((note) => spokenPitch(note.sounding)));
  const parts = [
    sentence(`${place}: ${sounding}, ${event.duration} note`),
    ...event.notes.map((note) => sentence(noteAccount(note, event.notes.length > 1))),
  ];
  if (event.barred) parts.push('One finger covers both strings.');
  parts.push(...breakingWords(event.breaking));
  if (event.position !== undefined) parts.push(sentence(event.position));
  if (event.chance !== undefined) {
    parts.push(
      sentence(
        `${event.notes.length > 2 ? 'all notes come' : event.notes.length > 1 ? 'both notes come' : 'comes'} out ${often(event.chance)}`,
      ),
    );
  }
  return parts.join(' ');
}

function noteAccount(note: SceneNote, several: boolean): string {
  const name = several ? `${spokenPitch(note.sounding)} on string ${note.string}` : `on string ${note.string}`;
  const miss = note.tolerance === undefined ? '' : `, with ${mmWords(note.tolerance)} to spare on either side`;
  switch (note.kind) {
    case 'open':
      return `${name}, open`;
    case 'stopped':
      return `${name}, stopped with the ${fingerWords(note.stop?.finger ?? '')} at ${mmWords(note.stop?.mm ?? 0)}${miss}`;
    case 'natural':
      return `${name}, natural harmonic: touch ${note.touch?.fraction} of the string, at ${mmWords(note.touch?.mm ?? 0)}, with the ${fingerWords(note.touch?.finger ?? '')}${miss}`;
    case 'artificial':
      return (
        `${name}, ${intervalWords(note.interval)} harmonic: stop ${spokenPitch(note.stop?.pitch ?? '')} with the ${fingerWords(note.stop?.finger ?? '')} ` +
        `at ${mmWords(note.stop?.mm ?? 0)}, touch ${spokenPitch(note.touch?.pitch ?? '')} with the ${fingerWords(note.touch?.finger ?? '')} at ${mmWords(note.touch?.mm ?? 0)}${miss}`
      );
  }
}
