import { type MidiData, parseMidi } from 'midi-file';
import type { Family } from '../../instrument/instrument';
import { later, t } from '../../l10n/translate';
import { familyNamed, oneLine } from '../score/score';
import { Unreadable } from '../unreadable';

/** One note as it was played; times in quarters from the start. */
export interface PerformedNote {
  readonly key: number;
  readonly from: number;
  readonly to: number;
  /** On the program for plucked strings. */
  readonly plucked: boolean;
}

/** The notes of one track, or of one instrument in it. */
export interface PerformedPart {
  readonly name: string;
  readonly family?: Family;
  readonly notes: readonly PerformedNote[];
  /** A pitch wheel moved by more than a quarter tone. */
  readonly bent: boolean;
}

/** Something that holds from a time on, in quarters. */
export interface From<T> {
  readonly at: number;
  readonly value: T;
}

export interface Performance {
  readonly title: string;
  readonly parts: readonly PerformedPart[];
  readonly meters: readonly From<{ readonly count: number; readonly unit: number }>[];
  /** Sharps, flats negative. */
  readonly keys: readonly From<{ readonly fifths: number; readonly minor: boolean }>[];
  /** Quarters a minute. */
  readonly tempos: readonly From<number>[];
}

/** Programs of General MIDI level 1 that are ours, counted from 0. */
const FAMILIES: Readonly<Record<number, Family>> = { 40: 'violin', 41: 'viola', 42: 'cello' };
/** Pizzicato strings, of whatever instrument. */
export const PLUCKED = 45;
const PERCUSSION = 9;
const MOST_NOTES = 200_000;

/** What a Standard MIDI File (MIDI Manufacturers Association, 1988) plays. @throws Unreadable */
export function performanceOf(source: Uint8Array): Performance {
  const { header, tracks } = parsed(source);
  const quarter = header.ticksPerBeat;
  if (!quarter)
    throw new Unreadable(
      t('This MIDI file is timed in film frames instead of beats, so it has no bars. Export it again with beats.'),
    );
  if (header.format === 2)
    throw new Unreadable(t('This MIDI file holds several pieces side by side (format 2). Export one of them, as format 0 or 1.'));
  const meters: From<{ count: number; unit: number }>[] = [];
  const keys: From<{ fifths: number; minor: boolean }>[] = [];
  const tempos: From<number>[] = [];
  const parts: PerformedPart[] = [];
  let title = '';
  for (const [index, track] of tracks.entries()) {
    let ticks = 0;
    let name = '';
    const channels = new Map<number, Channel>();
    const channelOf = (channel: number) => {
      const known: Channel = channels.get(channel) ?? { notes: [], on: new Map(), bent: false, plucked: false };
      channels.set(channel, known);
      return known;
    };
    for (const event of track) {
      ticks += event.deltaTime;
      const at = ticks / quarter;
      switch (event.type) {
        case 'trackName':
          name ||= oneLine(event.text);
          break;
        case 'timeSignature':
          meters.push({ at, value: { count: event.numerator, unit: event.denominator } });
          break;
        case 'keySignature':
          keys.push({ at, value: { fifths: event.key, minor: event.scale === 1 } });
          break;
        case 'setTempo':
          if (event.microsecondsPerBeat > 0) tempos.push({ at, value: 6e7 / event.microsecondsPerBeat });
          break;
        case 'programChange':
          turn(channelOf(event.channel), event.programNumber);
          break;
        case 'pitchBend': {
          const channel = channelOf(event.channel);
          channel.bent ||= Math.abs(event.value) > 8192 / 4 + 1;
          break;
        }
        case 'noteOn':
        case 'noteOff':
          take(channelOf(event.channel), event.noteNumber, event.type === 'noteOn' && event.velocity > 0, at);
          break;
      }
    }
    for (const channel of channels.values()) for (const key of channel.on.keys()) take(channel, key, false, ticks / quarter);
    const own = partsOf(channels, name, header.format === 0);
    if (index === 0 && (own.length === 0 || header.format === 0)) title = name;
    parts.push(...own);
  }
  if (parts.reduce((sum, { notes }) => sum + notes.length, 0) > MOST_NOTES)
    throw new Unreadable(
      t('The file plays more than {most} notes, too many to read at once. Export only the part you need.', { most: MOST_NOTES }),
    );
  const inOrder = <T>(list: From<T>[]) => list.sort((a, b) => a.at - b.at);
  return { title, parts, meters: inOrder(meters), keys: inOrder(keys), tempos: inOrder(tempos) };
}

interface Channel {
  /** Its first but for plucked strings. */
  program?: number;
  bent: boolean;
  plucked: boolean;
  readonly notes: PerformedNote[];
  /** When each key that is down was struck, and whether plucked. */
  readonly on: Map<number, Pick<PerformedNote, 'from' | 'plucked'>>;
}

const DAMAGED = later('The MIDI file is damaged: it ends or breaks off in the middle. Export it again.');

function parsed(source: Uint8Array): MidiData {
  if (!isWhole(source)) throw new Unreadable(t(DAMAGED));
  try {
    return parseMidi(source);
  } catch {
    throw new Unreadable(t(DAMAGED));
  }
}

/** True where every chunk is as long as it says: the library reads on past the end. */
function isWhole(source: Uint8Array): boolean {
  const view = new DataView(source.buffer, source.byteOffset, source.byteLength);
  let at = 0;
  while (at + 8 <= source.length) at += 8 + view.getUint32(at + 4);
  return at === source.length;
}

/** Plucked strings are a way of playing, and no other instrument. */
function turn(channel: Channel, program: number): void {
  channel.plucked = program === PLUCKED;
  if (!channel.plucked) channel.program ??= program;
}

/** A key that is struck again while it is down begins anew. */
function take({ on, notes, plucked }: Channel, key: number, down: boolean, at: number): void {
  const struck = on.get(key);
  if (struck !== undefined && at > struck.from) notes.push({ key, ...struck, to: at });
  if (down) on.set(key, { from: at, plucked });
  else on.delete(key);
}

/** A track is one part, unless its channels play different instruments: then each of them is. */
function partsOf(channels: ReadonlyMap<number, Channel>, name: string, single: boolean): readonly PerformedPart[] {
  const groups = new Map<string, Channel[]>();
  for (const [number, channel] of channels) {
    if (number === PERCUSSION || channel.notes.length === 0) continue;
    const key = single ? String(number) : String(channel.program);
    groups.set(key, [...(groups.get(key) ?? []), channel]);
  }
  return [...groups.values()].map((group, i): PerformedPart => {
    const program = group.find((c) => c.program !== undefined)?.program;
    const family = familyNamed([name]) ?? (program === undefined ? undefined : FAMILIES[program]);
    const own = groups.size > 1 || name === '' ? `${name || family || 'channel'} ${i + 1}` : name;
    return {
      name: own,
      ...(family && { family }),
      notes: group.flatMap(({ notes }) => notes).sort((a, b) => a.from - b.from || a.key - b.key),
      bent: group.some(({ bent }) => bent),
    };
  });
}
