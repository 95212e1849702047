import { NECK_END, USUAL_POSITIONS } from '../hand/constants';
import { positionName } from '../hand/places';
import { CONSTANTS } from '../instrument/constants';
import type { Instrument } from '../instrument/instrument';
import { NODES, partialSemitones, touchPlace } from '../instrument/nodes';
import { semitonePlace } from '../instrument/places';
import { tolerance } from '../instrument/tolerance';
import { pitchName, semitone, spell } from '../music/pitch';
import type { SceneBoard, SceneNode } from '../protocol/scene';

const boards = new WeakMap<Instrument, SceneBoard>();

/** The instrument to scale, with every node that has tolerance left. One object for each instrument: passages share it. */
export function sceneBoard(instrument: Instrument): SceneBoard {
  let board = boards.get(instrument);
  if (!board) {
    board = {
      family: instrument.family,
      name: instrument.name,
      length: instrument.length,
      fingerboard: instrument.fingerboard,
      spacing: instrument.spacing,
      contact: CONSTANTS.fingerWidth.value,
      strings: instrument.strings.map(({ name, pitch, hz, tension, density }) => ({
        name,
        pitch: pitchName(pitch),
        hz,
        tension,
        density,
      })),
      nodes: nodesOf(instrument),
      positions: USUAL_POSITIONS[instrument.family].map((semitones, index) => ({
        name: positionName(index + 1),
        mm: semitonePlace(instrument.length, semitones),
      })),
      ...(instrument.thumb && { neckEnd: semitonePlace(instrument.length, NECK_END) }),
    };
    boards.set(instrument, board);
  }
  return board;
}

function nodesOf(instrument: Instrument): readonly SceneNode[] {
  const { length, strings } = instrument;
  return NODES.flatMap(({ k, n }) => {
    const spare = tolerance(length, k, n);
    if (spare <= 0) return [];
    return strings.map(({ pitch }, string) => ({
      string,
      k,
      n,
      mm: touchPlace(0, length, k, n),
      tolerance: spare,
      sounding: pitchName(spell(semitone(pitch) + partialSemitones(n), pitch.alter < 0)),
    }));
  }).sort((a, b) => a.mm - b.mm || a.string - b.string);
}
