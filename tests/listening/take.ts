import type { Sound } from '../../server/listening/audio/sound';
import type { ScenePassage } from '../../server/protocol/scene';
import { Chance } from './chance';
import { type Made, somePassage } from './passages';
import { type Performance, perform } from './performance';
import { type Method, type Recorded, record } from './synthesis';

/** A recording with its truth. */
export interface TrueTake {
  readonly seed: number;
  readonly text: string;
  readonly scene: ScenePassage;
  readonly performance: Performance;
  readonly how: Recorded;
  readonly vibrato: boolean;
  readonly samples: Float32Array;
}

const MAKES: readonly (readonly Made[])[] = [
  ['stopped'],
  ['natural', 'stopped'],
  ['artificial'],
  ['artificial', 'natural', 'stopped'],
  ['double'],
  ['double', 'natural'],
];

/** Take number `seed`: passage, faults and recording all follow from it. */
export function takeOf(seed: number, method: Method = seed % 2 === 0 ? 'string' : 'partials'): TrueTake {
  const chance = new Chance(seed * 7919 + 17);
  const { text, scene } = somePassage(chance, chance.pick(MAKES), chance.whole(2, 4));
  const vibrato = chance.is(0.5);
  const performance = perform(chance, scene, {
    faults: 0.25,
    vibrato,
    falseStart: chance.is(0.25),
    takes: chance.is(0.2) ? 2 : 1,
    drift: chance.between(-0.12, 0.12),
  });
  const how: Recorded = { rate: chance.is(0.7) ? 44_100 : 48_000, method, noise: 20, room: chance.is(0.5) };
  return { seed, text, scene, performance, how, vibrato, samples: record(chance, scene.board, performance, how) };
}

export function soundOf(samples: Float32Array, rate: number): Sound {
  return { rate, blocks: blocksOf(samples) };
}

async function* blocksOf(samples: Float32Array): AsyncGenerator<Float32Array> {
  for (let at = 0; at < samples.length; at += 16_384) yield samples.subarray(at, at + 16_384);
}

/** True where two takes are of passages with a bar in common: then neither is another passage than the other. */
export function shareBar(one: TrueTake, other: TrueTake): boolean {
  const bars = barsOf(other);
  return barsOf(one).some((bar) => bars.includes(bar));
}

function barsOf({ text }: TrueTake): readonly string[] {
  return text
    .split('\n')
    .slice(3)
    .map((line) => line.replace(/ \|+$/, ''))
    .filter(Boolean);
}
