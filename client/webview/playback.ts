import type { ScenePassage } from '../../server/protocol/scene';
import { asPlayed, asWritten } from '../../server/scene/sound/as-played';
import { Player } from './player';
import type { TransportSettings } from './transport-view';

export interface PlaybackEvents {
  /** The music has come to `Playback.at`. */
  moved(): void;
  /** It stopped; `last` is the note it had come to. */
  stopped(last: number | undefined): void;
  failed(reason: string): void;
}

/** What the play button means: from the note chosen to the end, or the chosen notes over and over. */
export class Playback {
  private readonly player = new Player();
  private event: number | undefined;

  constructor(
    private readonly settings: TransportSettings,
    private readonly events: PlaybackEvents,
  ) {}

  get playing(): boolean {
    return this.player.playing;
  }

  /** The note that sounds now. */
  get at(): number | undefined {
    return this.event;
  }

  /** Must come from a click or a key: before that no page may make a sound. */
  start(passage: ScenePassage, selected: number, range: readonly [number, number] | undefined): void {
    const { loop, speed, click, countIn } = this.settings;
    // Chosen notes are played as chosen, a passage with the repeats that it has.
    const played = range ? asWritten(passage) : asPlayed(passage);
    const start = played.written.indexOf(selected);
    // Repeating without a choice of notes repeats the passage, and comes in where the player is.
    const [from, to] = range ?? [loop ? 0 : start, played.written.length - 1];
    const order = { from, to, start: range ? from : start, loop, speed, click, countIn };
    const heard = {
      reach: (event: number) => {
        this.event = played.written[event];
        this.events.moved();
      },
      end: () => {
        const { event } = this;
        this.event = undefined;
        this.events.stopped(event);
      },
    };
    this.player.play(played.passage, order, heard).catch((error: unknown) => {
      this.stop();
      this.events.failed(error instanceof Error ? error.message : String(error));
    });
  }

  stop(): void {
    this.player.stop();
  }

  /** Stops because what is played is gone: there is no note to go on from. */
  drop(): void {
    this.event = undefined;
    this.player.stop();
  }
}
