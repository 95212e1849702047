import { random } from './mixed';

const NOTES = ['D5', 'F#5', 'A5', 'D6o', 'E6o', 'G4', 'B4', 'C5', 'A4+E5', 'F#6o', 'G5', 'F5<>Bb5', 'B5', 'A4', 'E5', 'D4'];

/** A file of so many lines, a bar of eighths on each, always the same. */
export function longFile(lines: number, seed = 3): string {
  const next = random(seed);
  const bar = () => Array.from({ length: 8 }, () => NOTES[Math.floor(next() * NOTES.length)]).join(' ');
  return ['instrument: violin', ...Array.from({ length: lines }, () => `1/8 ${bar()} |`), ''].join('\n');
}

/** The file after one more edit: a note in the middle of some line becomes another. */
export function edited(text: string, edit: number): string {
  const next = random(edit + 11);
  const lines = text.split('\n');
  const at = 1 + Math.floor(next() * (lines.length - 2));
  const words = lines[at]!.split(' ');
  words[4] = NOTES[Math.floor(next() * NOTES.length)]!;
  lines[at] = words.join(' ');
  return lines.join('\n');
}
