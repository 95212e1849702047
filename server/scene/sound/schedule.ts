import type { ScenePassage } from '../../protocol/scene';
import { countIn, timelineOf } from './timeline';

export interface PlayOrder {
  /** First and last event, last included. */
  readonly from: number;
  readonly to: number;
  /** Where to begin the first time; `from` unless set. */
  readonly start?: number;
  readonly loop: boolean;
  /** 1 as written, 0.5 half as fast. Pitch stays. */
  readonly speed: number;
  readonly click: boolean;
  readonly countIn: boolean;
}

/** What happens next and when, in seconds from the start of playing, in order of time. */
export type Cue =
  | {
      readonly kind: 'note';
      readonly at: number;
      readonly event: number;
      readonly note: number;
      readonly seconds: number;
      /** Semitones above the note. */
      readonly above: number;
    }
  | { readonly kind: 'click'; readonly at: number; readonly strong: boolean }
  /** The music is now at this event: the views follow. */
  | { readonly kind: 'reach'; readonly at: number; readonly event: number }
  | { readonly kind: 'end'; readonly at: number };

/** All that is to be heard, in order; without end where it loops. */
export function* schedule(passage: ScenePassage, order: PlayOrder): Generator<Cue, void> {
  const timeline = timelineOf(passage);
  const start = Math.max(order.from, order.start ?? order.from);
  let clock = 0;
  if (order.countIn) {
    const { beats, apart } = countIn(passage, start);
    for (let beat = 0; beat < beats; beat++) yield { kind: 'click', at: (beat * apart) / order.speed, strong: beat === 0 };
    clock = (beats * apart) / order.speed;
  }
  for (let from = start; ; from = order.from) {
    const begin = timeline.events[from]?.at;
    const end = timeline.events[order.to]?.end;
    if (begin === undefined || end === undefined || end <= begin) break;
    const at = (time: number): number => clock + (time - begin) / order.speed;
    const within = (time: number): boolean => time >= begin - 1e-9 && time < end - 1e-9;
    const cues: Cue[] = [
      ...timeline.events.flatMap(({ at: time }, event): Cue[] =>
        event >= from && event <= order.to ? [{ kind: 'reach', at: at(time), event }] : [],
      ),
      ...timeline.soundings
        .filter(({ event, at: time }) => event >= from && event <= order.to && within(time))
        .map(
          (sounding): Cue => ({
            kind: 'note',
            at: at(sounding.at),
            event: sounding.event,
            note: sounding.note,
            above: sounding.above,
            seconds: Math.min(sounding.seconds, end - sounding.at) / order.speed,
          }),
        ),
      ...(order.click
        ? timeline.clicks
            .filter(({ at: time }) => within(time))
            .map((click): Cue => ({ kind: 'click', at: at(click.at), strong: click.strong }))
        : []),
    ];
    yield* cues.sort((a, b) => a.at - b.at);
    clock = at(end);
    if (!order.loop) break;
  }
  yield { kind: 'end', at: clock };
}
