import { StaveTie } from 'vexflow/core';
import type { SceneEvent } from '../../protocol/scene';
import { type Engraved, isSounding, keysOf } from './engrave';

/** Ties within an event that is written with several signs, and from notes held over into the next event. */
export function ties(signs: readonly Engraved[], events: readonly SceneEvent[]): readonly StaveTie[] {
  return signs.flatMap((sign, index) => {
    if (!isSounding(sign)) return [];
    const event = events[sign.event] as SceneEvent;
    const next = signs[index + 1];
    if (sign.runsOn) {
      const all = sign.note.getKeys().map((_, key) => key);
      const firstNote = { firstNote: sign.note, firstIndexes: all, lastIndexes: all };
      return [new StaveTie(next && next.event === sign.event ? { ...firstNote, lastNote: next.note } : firstNote)];
    }
    const follower = events[event.index + 1];
    const held = follower?.notes.filter(({ held }) => held).map(({ sounding }) => sounding) ?? [];
    if (!follower || held.length === 0) return [];
    const here = keysHolding(event, held);
    const there = keysHolding(follower, held);
    if (next?.event === follower.index) {
      return [new StaveTie({ firstNote: sign.note, lastNote: next.note, firstIndexes: here, lastIndexes: there })];
    }
    return [new StaveTie({ firstNote: sign.note, firstIndexes: here, lastIndexes: here })];
  });
}

/** Which noteheads belong to the notes with these sounding pitches. */
function keysHolding(event: SceneEvent, sounding: readonly string[]): number[] {
  return keysOf(event).flatMap(({ note }, key) => (sounding.includes(event.notes[note]?.sounding ?? '') ? [key] : []));
}
