import { describe, expect, it } from 'vitest';
import type { Scene } from '../../server/protocol/scene';
import { sceneChange, withChange } from '../../server/scene/change';
import { buildScene, scenePassage } from '../../server/scene/scene';
import { DEFAULT_SETTINGS } from '../../server/workspace/settings';
import { type Snapshot, snapshot } from '../../server/workspace/snapshot';
import { edited, longFile } from '../bench/long-file';
import { random } from '../bench/mixed';

const URI = 'file:///harbour.passage';

/** Scenes of one text after another, each built on the one before, as the server builds them; and what a client makes of the changes. */
function session(first: string) {
  let last: Snapshot = snapshot(first, 1, DEFAULT_SETTINGS);
  let sent: Scene = buildScene(URI, 1, last.solutions);
  let held = sent;
  return {
    /** Writes a text, compares client and server with a scene made from nothing, and gives the change. */
    write(text: string) {
      const next = snapshot(text, last.version + 1, DEFAULT_SETTINGS, last);
      const scene = buildScene(URI, next.version, next.solutions, last.solutions);
      const change = sceneChange(sent, scene);
      const fresh = { uri: URI, version: next.version, passages: next.solutions.map((solution) => scenePassage(solution)) };
      expect(scene).toEqual(fresh);
      held = change ? withChange(held, JSON.parse(JSON.stringify(change)))! : scene;
      expect(held).toEqual(fresh);
      [last, sent] = [next, scene];
      return change;
    },
    get scene() {
      return sent;
    },
  };
}

const VIOLIN = `instrument: violin
tempo: 1/4 = 96
passage: One
meter: 4/4
1/4 D5 E5 F#5 G5 | A5o B5 C6 D6 |
1/8 rest D5 slur(E5 F#5) G5 A5 B5 C6 | D6o+F#6o A4+E5 1/4 B4 A4 G4 |
passage: Two
1/8 G4 A4 B4 C5 D5 E5 F#5 G5
`;

const EDITS: readonly (readonly [string, (text: string) => string])[] = [
  ['another note', (text) => text.replace('F#5 G5 |', 'F#5 A5 |')],
  ['a note more', (text) => text.replace('B5 C6 D6 |', 'B5 C6 1/8 D6 E6 |')],
  ['a bar more', (text) => text.replace('1/8 rest', '1/4 A4 B4 C5 D5 |\n1/8 rest')],
  ['a line above', (text) => text.replace('tempo', '// a line\ntempo')],
  ['another tempo', (text) => text.replace('96', '120')],
  ['a rest moved', (text) => text.replace('1/8 rest D5', '1/8 D5 rest')],
  ['a note that nobody can play', (text) => text.replace('B4 A4 G4', 'C3 A4 G4')],
  ['another title', (text) => text.replace('One', 'First')],
  ['a bar less', (text) => text.replace('A5o B5 C6 D6 |', '')],
  ['nothing left of it', () => 'passage: One\npassage: Two\n'],
  ['all of it again', () => VIOLIN],
  ['a passage less', (text) => text.slice(0, text.indexOf('passage: Two'))],
  ['another instrument', (text) => text.replace('violin', 'cello')],
];

describe('a scene told by what changed', () => {
  it('is the scene that is built from nothing, edit after edit', () => {
    const { write } = session(VIOLIN);
    let text = VIOLIN;
    for (const [, edit] of EDITS) {
      text = edit(text);
      write(text);
    }
  });

  it.each(['violin', 'cello'])('is so after random edits, %s', (instrument) => {
    const next = random(5);
    let text = longFile(14).replace('violin', instrument);
    if (instrument === 'cello') text = text.replaceAll(/[5-6](?=[ +|<>o])/g, (octave) => String(Number(octave) - 2));
    const { write } = session(text);
    for (let edit = 0; edit < 12; edit++) {
      const kind = next();
      const lines = text.split('\n');
      const at = 1 + Math.floor(next() * (lines.length - 2));
      if (kind < 0.5) text = edited(text, edit);
      else if (kind < 0.65) text = lines.toSpliced(at, 0, lines[at]!).join('\n');
      else if (kind < 0.8 && lines.length > 6) text = lines.toSpliced(at, 1).join('\n');
      else text = lines.with(at, `${lines[at]!.replace(/ \|$/, '')} D4`).join('\n');
      write(text);
    }
  });

  it('is short: an edited note of a thousand is told in a twentieth part of the scene', () => {
    const text = longFile(120);
    const opened = session(text);
    const change = opened.write(text.replace(/(\n1\/8 (?:\S+ ){3})\S+/, '$1C5'));
    expect(JSON.stringify(change).length).toBeLessThan(JSON.stringify(opened.scene).length / 20);
  });

  it('is made to no other scene', () => {
    const { write, scene } = session(VIOLIN);
    const change = write(VIOLIN.replace('D5', 'E5'))!;
    expect(withChange({ ...scene, version: 7 }, change)).toBeUndefined();
    expect(withChange({ ...scene, passages: [] }, change)).toBeUndefined();
    expect(sceneChange(scene, { ...scene, passages: [] })).toBeUndefined();
  });
});
