import { ordinal } from '../../../grammar/hint-names';
import type { Finger, StringNumber } from '../../../grammar/tree';
import type { Instrument } from '../../instrument/instrument';
import type { Pitch } from '../../music/pitch';
import type { NoteSpec, Pins } from '../../passage/passage';
import { sounding } from '../../passage/sounding';
import type { Way } from '../../solver/way';

/** One note head of the printed form, with what stands at it. */
export interface Head {
  readonly pitch: Pitch;
  /** A diamond is touched; brackets hold what sounds. */
  readonly shape: 'plain' | 'diamond' | 'brackets';
  readonly harmonic?: {
    readonly kind?: 'natural' | 'artificial';
    readonly names?: 'base-pitch' | 'touching-pitch' | 'sounding-pitch';
  };
  readonly string?: StringNumber;
  /** One, or for a harmonic known by its circle alone the stopping and the touching one. */
  readonly fingers: readonly Finger[];
  readonly openString?: boolean;
  /** Hints that MusicXML has no element for, as the passage words them. */
  readonly hints: readonly string[];
}

/**
 * How one note is printed: as the passage writes it, or where a fingering was chosen, as that is
 * played. An artificial harmonic is its stopped note, the diamond above it and the sounding pitch in
 * brackets; a natural one the circle over its sounding pitch, unless the passage itself shows the diamond.
 *
 * @param way the chosen fingering; absent to print what was written.
 * @param besideDiamond another note of the event is a lone diamond whose sounding pitch is open.
 */
export function headsOf(spec: NoteSpec, instrument: Instrument, way?: Way, besideDiamond = false): readonly Head[] {
  const { asked, pins } = spec;
  const placed = stringOf(pins, way);
  if (asked.kind === 'diamond') {
    const finger = way?.touch?.finger ?? pins.finger;
    const touch: Head = {
      pitch: asked.touch,
      shape: 'diamond',
      harmonic: { kind: 'natural', names: 'touching-pitch' },
      ...placed,
      fingers: listed(finger),
      hints: pinHints(pins, way),
    };
    const sounds = soundOfDiamond(spec, instrument, way);
    return sounds ? [touch, inBrackets(sounds, 'natural')] : [touch];
  }
  if (asked.kind === 'artificial' || way?.kind === 'artificial') return printedForm(spec, instrument, way);
  const harmonic = way ? way.kind === 'natural' : spec.harmonic === 'must';
  const kind =
    way?.kind === 'natural' ? 'natural' : pins.manner === 'natural' || pins.manner === 'artificial' ? pins.manner : undefined;
  const finger = way ? (way.touch?.finger ?? way.stop?.finger) : pins.finger;
  return [
    {
      pitch: asked.pitch,
      shape: 'plain',
      ...(harmonic && { harmonic: { ...(kind && { kind }), ...(!besideDiamond && { names: 'sounding-pitch' as const }) } }),
      ...placed,
      fingers: way || !pins.fingers ? listed(finger) : [pins.fingers.stop, pins.fingers.touch],
      openString: (way?.kind ?? pins.manner) === 'open',
      hints: [
        ...(way?.kind === 'stopped' && spec.harmonic === 'may' ? ['stopped'] : []),
        ...pinHints(pins, way, harmonic && !besideDiamond),
      ],
    },
  ];
}

/** Stopped note, diamond and sounding pitch. Where the stopped note is an open string, the harmonic is a natural one of it. */
function printedForm({ asked, pins }: NoteSpec, instrument: Instrument, way: Way | undefined): readonly Head[] {
  const printed = asked.kind === 'artificial' ? asked : { stop: way?.stop?.pitch as Pitch, touch: way?.touch?.pitch as Pitch };
  const sounds = asked.kind === 'sounding' ? asked.pitch : (way?.sounding ?? sounding(asked, instrument)[0]?.pitch);
  const kind = way?.kind === 'natural' ? 'natural' : 'artificial';
  const string = stringOf(pins, way);
  const stopFinger = way ? way.stop?.finger : (pins.fingers?.stop ?? pins.finger);
  const touchFinger = way ? way.touch?.finger : pins.fingers?.touch;
  const base: Head = {
    pitch: printed.stop,
    shape: 'plain',
    harmonic: { kind, names: 'base-pitch' },
    ...string,
    fingers: listed(stopFinger),
    hints: pinHints(pins, way),
  };
  const touch: Head = {
    pitch: printed.touch,
    shape: 'diamond',
    harmonic: { kind, names: 'touching-pitch' },
    ...string,
    fingers: listed(touchFinger),
    hints: [],
  };
  return sounds ? [base, touch, inBrackets(sounds, kind)] : [base, touch];
}

function stringOf(pins: Pins, way: Way | undefined): { readonly string?: StringNumber } {
  const string = way ? ((way.string + 1) as StringNumber) : pins.string;
  return string === undefined ? {} : { string };
}

/** True where a lone diamond can't say which pitch it sounds. */
export function soundsOpenly(spec: NoteSpec, instrument: Instrument, way?: Way): boolean {
  return spec.asked.kind === 'diamond' && soundOfDiamond(spec, instrument, way) === undefined;
}

function soundOfDiamond({ asked }: NoteSpec, instrument: Instrument, way?: Way): Pitch | undefined {
  if (way) return way.sounding;
  if (asked.kind === 'diamond' && asked.sounding) return asked.sounding;
  const all = sounding(asked, instrument);
  return all.length === 1 ? all[0]?.pitch : undefined;
}

function inBrackets(pitch: Pitch, kind: 'natural' | 'artificial'): Head {
  return { pitch, shape: 'brackets', harmonic: { kind, names: 'sounding-pitch' }, fingers: [], hints: [] };
}

function listed(finger: Finger | undefined): readonly Finger[] {
  return finger === undefined ? [] : [finger];
}

/** Hints beyond string and finger. `told` is true where the harmonic mark already says how the note is made. */
function pinHints(pins: Pins, way: Way | undefined, told = false): readonly string[] {
  const hints: string[] = [];
  const { manner, interval, position } = pins;
  const node = way?.kind === 'natural' && way.touch ? way.touch : pins.node;
  if (manner !== undefined && manner !== 'open' && (!told || manner === 'stopped')) hints.push(manner);
  if (interval !== undefined) hints.push(interval);
  if (node) hints.push(`at ${node.k}/${node.n}`);
  if (position !== undefined) hints.push(ordinal(position));
  return hints;
}
