import type { Dynamic } from '../../grammar/tree';
import type { Family } from './instrument';

/** A number of the model with its unit and where it comes from; `assumption` where there is no source. */
export interface Constant {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/** Constants of finger and bow that hold on every instrument. */
export const CONSTANTS = {
  fingerWidth: { value: 7, unit: 'mm along the string', source: 'assumption' },
  dampingShare: { value: 0.3, unit: '1', source: 'assumption' },
  usualNearest: { value: 1 / 16, unit: 'distance to the bridge / sounding length', source: 'common practice, no source' },
  usualFarthest: { value: 1 / 8, unit: 'distance to the bridge / sounding length', source: 'common practice, no source' },
  harmonicNearest: {
    value: 1 / 6,
    unit: 'share of a loop of the partial, from the bridge',
    source: 'common practice, no source',
  },
  harmonicFarthest: {
    value: 1 / 3,
    unit: 'share of a loop of the partial, from the bridge',
    source: 'assumption: well clear of the node, and the simulated string still sounds the partial rather than its octave',
  },
  nearestSpeaking: { value: 0.3, unit: 'share of a loop of the partial, from the bridge', source: 'assumption' },
  farthestSpeaking: {
    value: 0.7,
    unit: 'share of a loop of the partial, from the bridge',
    source: 'assumption: as far from the node',
  },
  harmonicForce: {
    value: 1 / 7,
    unit: 'share of the most bow force',
    source: 'assumption: from an eighth to a sixth the simulated string sounds the partial, lighter or firmer often its octave',
  },
  bowSpeed: { value: 0.2, unit: 'm/s', source: 'assumption, within the range measured by Schoonderwaldt et al. 2008' },
  staticFriction: { value: 0.8, unit: '1', source: 'assumption, about what rosined hair on a string measures' },
  slidingFriction: { value: 0.3, unit: '1', source: 'Russo, Ducceschi and Bilbao, DAFx 2022, their friction curve' },
  settlingPeriods: {
    value: 3,
    unit: 'periods of the whole string, for partial 2',
    source: 'assumption: a well bowed start settles in a few periods (Guettler, Acustica 88, 2002, from memory)',
  },
} as const satisfies Readonly<Record<string, Constant>>;

/** Bow speed by dynamic, m/s. Assumption, within the range measured by Schoonderwaldt, Guettler and Askenfelt 2008. */
export const BOW_SPEED: Readonly<Record<Dynamic, number>> = {
  ppp: 0.06,
  pp: 0.08,
  p: 0.12,
  mp: 0.16,
  mf: 0.2,
  f: 0.3,
  ff: 0.4,
  fff: 0.5,
};

/** How much longer a string takes to settle under the bow of a dynamic, no unit: the lighter the longer. Assumption. */
export const LIGHT_BOW: Readonly<Record<Dynamic, number>> = {
  ppp: 1.75,
  pp: 1.5,
  p: 1.25,
  mp: 1.1,
  mf: 1,
  f: 0.95,
  ff: 0.9,
  fff: 0.88,
};

/** One open string as it was measured. */
export interface StringData {
  /** Nut to bridge, mm. */
  readonly length: number;
  /** mm. */
  readonly radius: number;
  /** Effective Young's modulus in bending, GPa. */
  readonly modulus: number;
  /** N, at `length` and the usual pitch. */
  readonly tension: number;
  /** g/m. */
  readonly density: number;
}

export interface FamilyData {
  /** The usual open strings, I first. */
  readonly pitches: readonly string[];
  /** A typical set, I first. */
  readonly strings: readonly StringData[];
  readonly stringSource: string;
  /** Nut to bridge of each size, mm. */
  readonly sizes: Readonly<Record<string, number>>;
  readonly fullSize: string;
  readonly sizeSource: string;
  /** Between the outer strings, mm. */
  readonly spread: { readonly nut: number; readonly bridge: number };
  /** Part of the string that lies over the fingerboard. */
  readonly fingerboard: number;
  /** Of the strings above the fingerboard, mm, at the nut and at the board's end. */
  readonly height: { readonly nut: number; readonly end: number };
  readonly thumb: boolean;
  readonly bodySource: string;
  /** Nearest to the bridge that players bow, sul ponticello apart, mm to the middle of the hair, and the forces that they bow with, N. */
  readonly bow: { readonly nearest: number; readonly force: { readonly least: number; readonly most: number } };
  readonly bowSource: string;
  /** Mechanical resistance that the bridge shows a string, kg/s. */
  readonly bridgeResistance: Constant;
}

const MODAL =
  'Desvages 2018; Russo, Ducceschi and Bilbao, DAFx 2022, and the tables in their published code (EfficientBowedString)';
const WORKSHOP = 'assumption (usual workshop measures; the violin spread as in the model of the hand)';
const BOWED =
  'assumption; the violin’s forces after Askenfelt, JASA 86, 1989 (from memory: half a newton to one and a half as a rule)';
const MAKERS = 'assumption (usual for the size; makers differ by several mm, so a measured length is better)';

/** What is known of each instrument and its strings. */
export const FAMILIES: Readonly<Record<Family, FamilyData>> = {
  violin: {
    pitches: ['E5', 'A4', 'D4', 'G3'],
    strings: [
      { length: 320, radius: 0.165, modulus: 62.5, tension: 73, density: 0.41 },
      { length: 320, radius: 0.3, modulus: 19.5, tension: 57.1, density: 0.72 },
      { length: 320, radius: 0.44, modulus: 4.56, tension: 56.9, density: 1.61 },
      { length: 320, radius: 0.425, modulus: 4.79, tension: 43.9, density: 2.79 },
    ],
    stringSource: MODAL,
    sizes: { '4/4': 328, '7/8': 317, '3/4': 307, '1/2': 285, '1/4': 259, '1/8': 232, '1/16': 208 },
    fullSize: '4/4',
    sizeSource: MAKERS,
    spread: { nut: 16, bridge: 33.5 },
    fingerboard: 270 / 328,
    height: { nut: 0.4, end: 4.5 },
    thumb: false,
    bodySource: WORKSHOP,
    bow: { nearest: 12, force: { least: 0.2, most: 1.5 } },
    bowSource: BOWED,
    bridgeResistance: { value: 10, unit: 'kg/s', source: 'assumption' },
  },
  viola: {
    pitches: ['A4', 'D4', 'G3', 'C3'],
    strings: [
      { length: 363, radius: 0.1565, modulus: 167, tension: 100.2, density: 0.977 },
      { length: 363, radius: 0.219, modulus: 41.4, tension: 42.6, density: 0.935 },
      { length: 364, radius: 0.3355, modulus: 12.3, tension: 64.6, density: 3.21 },
      { length: 369, radius: 0.3575, modulus: 18.7, tension: 46.2, density: 5.02 },
    ],
    stringSource: 'one viola as measured for artifastring, a free bowed-string model (its strings_viola.h, viola I)',
    sizes: { '17in': 393, '16.5in': 383, '16in': 374, '15.5in': 362, '15in': 352 },
    fullSize: '16in',
    sizeSource: MAKERS,
    spread: { nut: 17, bridge: 36 },
    fingerboard: 0.82,
    height: { nut: 0.5, end: 5.5 },
    thumb: false,
    bodySource: WORKSHOP,
    bow: { nearest: 14, force: { least: 0.25, most: 2 } },
    bowSource: BOWED,
    bridgeResistance: { value: 15, unit: 'kg/s', source: 'assumption' },
  },
  cello: {
    pitches: ['A3', 'D3', 'G2', 'C2'],
    strings: [
      { length: 690, radius: 0.375, modulus: 25, tension: 153, density: 1.66 },
      { length: 690, radius: 0.44, modulus: 25, tension: 102.6, density: 2.5 },
      { length: 690, radius: 0.605, modulus: 8.6, tension: 112.67, density: 6.16 },
      { length: 690, radius: 0.72, modulus: 22.4, tension: 172.74, density: 21.2 },
    ],
    stringSource: MODAL,
    sizes: { '4/4': 690, '7/8': 650, '3/4': 620, '1/2': 570 },
    fullSize: '4/4',
    sizeSource: MAKERS,
    spread: { nut: 22, bridge: 47 },
    fingerboard: 0.84,
    height: { nut: 0.7, end: 7 },
    thumb: true,
    bodySource: WORKSHOP,
    bow: { nearest: 25, force: { least: 0.4, most: 3 } },
    bowSource: BOWED,
    bridgeResistance: { value: 40, unit: 'kg/s', source: 'assumption' },
  },
};
