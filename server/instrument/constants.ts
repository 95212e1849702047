import type { Family } from './instrument';

/** A number of the model with its unit and where it comes from; `assumption` where there is no source. */
export interface Constant {
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/** Constants of finger, string and bow that hold for every instrument. */
export const ASSUMPTIONS = {
  fingerWidth: { value: 7, unit: 'mm', source: 'assumption' },
  dampingShare: { value: 0.3, unit: '1', source: 'assumption' },
} as const satisfies Readonly<Record<string, Constant>>;

/** One open string as it is made, measured at `length` mm and `hz`. */
export interface StringData {
  /** mm. */
  readonly length: number;
  /** Hz. */
  readonly hz: number;
  /** Stiffness coefficient, no unit. */
  readonly inharmonicity: number;
  /** N. */
  readonly tension: number;
  /** g/m. */
  readonly density: number;
  /** Resistance to stretching, EA, N. */
  readonly axialStiffness: number;
}

export interface FamilyData {
  /** Open strings, highest first. */
  readonly pitches: readonly string[];
  readonly strings: readonly StringData[];
  readonly stringSource: string;
  /** String length of each size, mm; the first is the full size. */
  readonly sizes: Readonly<Record<string, number>>;
  readonly fullSize: string;
  readonly sizeSource: string;
  /** Between the outer strings, mm. */
  readonly spread: { readonly nut: number; readonly bridge: number };
  /** Part of the string over the fingerboard. */
  readonly fingerboard: number;
  /** Height of the strings above the fingerboard, mm, at the nut and at the board's end. */
  readonly height: { readonly nut: number; readonly end: number };
  readonly thumb: boolean;
  readonly bodySource: string;
}

const STEEL_E = 10600;
const SYNTHETIC = 2500;

export const FAMILIES: Readonly<Record<Family, FamilyData>> = {
  violin: {
    pitches: ['E5', 'A4', 'D4', 'G3'],
    strings: [
      { length: 320, hz: 660, inharmonicity: 0.48e-4, tension: 73, density: 0.41, axialStiffness: STEEL_E },
      { length: 320, hz: 440, inharmonicity: 2.1e-4, tension: 57.1, density: 0.72, axialStiffness: SYNTHETIC },
      { length: 320, hz: 293.33, inharmonicity: 2.3e-4, tension: 56.9, density: 1.61, axialStiffness: SYNTHETIC },
      { length: 320, hz: 195.56, inharmonicity: 2.7e-4, tension: 43.9, density: 2.79, axialStiffness: SYNTHETIC },
    ],
    stringSource:
      'Desvages 2018; Russo, Ducceschi and Bilbao, DAFx 2022 (B, tension, density). Length 320 mm follows from tension and density. EA: assumption',
    sizes: { '4/4': 328, '7/8': 317, '3/4': 307, '1/2': 285, '1/4': 259, '1/8': 232, '1/16': 208 },
    fullSize: '4/4',
    sizeSource: 'assumption (makers differ by several mm)',
    spread: { nut: 16, bridge: 33.5 },
    fingerboard: 270 / 328,
    height: { nut: 0.4, end: 4.5 },
    thumb: false,
    bodySource: 'assumption (usual workshop measures)',
  },
  viola: {
    pitches: ['A4', 'D4', 'G3', 'C3'],
    strings: [
      { length: 374, hz: 440, inharmonicity: 1.0e-4, tension: 73, density: 0.674, axialStiffness: 2 * SYNTHETIC },
      { length: 374, hz: 293.33, inharmonicity: 2.0e-4, tension: 54, density: 1.122, axialStiffness: SYNTHETIC },
      { length: 374, hz: 195.56, inharmonicity: 2.4e-4, tension: 52, density: 2.43, axialStiffness: SYNTHETIC },
      { length: 374, hz: 130.37, inharmonicity: 2.8e-4, tension: 50, density: 5.258, axialStiffness: SYNTHETIC },
    ],
    stringSource: 'assumption (density from tension, length and pitch)',
    sizes: { '16in': 374, '15in': 352, '15.5in': 362, '16.5in': 383, '17in': 393 },
    fullSize: '16in',
    sizeSource: 'assumption (makers differ by several mm)',
    spread: { nut: 17, bridge: 36 },
    fingerboard: 0.82,
    height: { nut: 0.5, end: 5.5 },
    thumb: false,
    bodySource: 'assumption (usual workshop measures)',
  },
  cello: {
    pitches: ['A3', 'D3', 'G2', 'C2'],
    strings: [
      { length: 690, hz: 220, inharmonicity: 0.5e-4, tension: 175, density: 1.899, axialStiffness: 5 * SYNTHETIC },
      { length: 690, hz: 146.67, inharmonicity: 0.7e-4, tension: 140, density: 3.417, axialStiffness: 5 * SYNTHETIC },
      { length: 690, hz: 97.78, inharmonicity: 0.9e-4, tension: 135, density: 7.414, axialStiffness: 5 * SYNTHETIC },
      { length: 690, hz: 65.19, inharmonicity: 1.2e-4, tension: 130, density: 16.06, axialStiffness: 5 * SYNTHETIC },
    ],
    stringSource: 'assumption (density from tension, length and pitch)',
    sizes: { '4/4': 690, '7/8': 650, '3/4': 620, '1/2': 570 },
    fullSize: '4/4',
    sizeSource: 'assumption (makers differ by several mm)',
    spread: { nut: 22, bridge: 47 },
    fingerboard: 0.84,
    height: { nut: 0.7, end: 7 },
    thumb: true,
    bodySource: 'assumption (usual workshop measures)',
  },
};
