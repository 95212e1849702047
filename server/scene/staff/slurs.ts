import type { SceneEvent } from '../../protocol/scene';
import { type Arc, arcAt, arcOver } from './curves';
import type { Engraved, SoundingSign } from './engrave';

/** One arc for every bow stroke over several notes, as far as it lies in this system. */
export function slurs(
  signs: readonly SoundingSign[],
  events: readonly SceneEvent[],
  place: ReadonlyMap<Engraved, { x: number; top: number }>,
): readonly Arc[] {
  const arcs: Arc[] = [];
  let run: { x: number; y: number }[] = [];
  // A note held over has its tie; only a stroke with something new in it is a slur.
  let news = false;
  const close = (): void => {
    const arc = news ? arcOver(run) : undefined;
    if (arc) arcs.push(arc);
    run = [];
    news = false;
  };
  for (const sign of signs) {
    const { x, top } = place.get(sign)!;
    const event = events[sign.event];
    const slurredInto = events[sign.event - 1]?.slurred ?? false;
    if (sign.first && !slurredInto) close();
    else if (sign.first && !(event?.notes.length && event.notes.every(({ held }) => held))) news = true;
    if (slurredInto || event?.slurred) run.push({ x, y: top });
  }
  close();
  return arcs;
}

/** One arc for every phrase mark, over the slurs that lie under it, as far as it lies in this system. */
export function phrases(
  signs: readonly SoundingSign[],
  events: readonly SceneEvent[],
  place: ReadonlyMap<Engraved, { x: number; top: number }>,
  under: readonly Arc[],
): readonly Arc[] {
  const arcs: Arc[] = [];
  let run: { x: number; y: number }[] = [];
  const close = (): void => {
    const arc = arcOver(run);
    if (arc) arcs.push(arc);
    run = [];
  };
  for (const sign of signs) {
    const mark = events[sign.event]?.marks?.find(({ word }) => word === 'phrase');
    if (!mark || (mark.opens && sign.first)) close();
    if (!mark) continue;
    const { x, top } = place.get(sign)!;
    run.push({ x, y: Math.min(top, ...under.map((arc) => (arcAt(arc, x) ?? top) - 2)) });
  }
  close();
  return arcs;
}
