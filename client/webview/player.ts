import type { SceneBoard, ScenePassage } from '../../server/protocol/scene';
import { type Cue, type PlayOrder, schedule } from '../../server/scene/sound/schedule';
import { raised, renderTone } from '../../server/scene/sound/tone';

/** Sound is worked out this far ahead, s: past the one second at which browsers wake a hidden page. */
const AHEAD = 1.6;
/** Looked after this often, ms. */
const TICK = 40;
/** Before the first sound, s. */
const LEAD = 0.12;
/** Tones kept for when they come again. */
const KEPT = 200;

/** Resonances of the body: Hz on a violin, gain in dB, width. Assumption, after the usual picture of air, body and bridge. */
const BODY = [
  { hz: 280, gain: 5, q: 2 },
  { hz: 470, gain: 5, q: 2.5 },
  { hz: 1300, gain: -4, q: 1 },
  { hz: 2600, gain: 4, q: 1.2 },
] as const;
/** Larger bodies sound lower, about in proportion. */
const BODY_SIZE: Readonly<Record<SceneBoard['family'], number>> = { violin: 1, viola: 0.8, cello: 0.42 };

export interface PlayEvents {
  /** The music has come to this event. */
  reach(event: number): void;
  /** It is over, or was stopped. */
  end(): void;
}

/** Plays passages. Makes its audio context on the first `play`, which must come from a click or a key. */
export class Player {
  private context: AudioContext | undefined;
  private run: Run | undefined;
  private readonly tones = new Map<string, AudioBuffer>();

  get playing(): boolean {
    return this.run !== undefined;
  }

  async play(passage: ScenePassage, order: PlayOrder, events: PlayEvents): Promise<void> {
    this.stop();
    this.context ??= new AudioContext();
    const context = this.context;
    const run = new Run(
      context,
      passage,
      order,
      (event, note, seconds, above) => this.tone(context, passage, event, note, seconds, above),
      {
        ...events,
        end: () => {
          if (this.run === run) this.run = undefined;
          events.end();
        },
      },
    );
    this.run = run;
    await context.resume();
    if (this.run === run) run.start();
  }

  stop(): void {
    this.run?.stop();
  }

  private tone(
    context: AudioContext,
    passage: ScenePassage,
    event: number,
    note: number,
    seconds: number,
    above: number,
  ): AudioBuffer | undefined {
    const of = passage.events[event];
    const written = of?.notes[note];
    if (!of || !written) return undefined;
    const sounding = raised(written, above);
    const { stringIndex, hz, length, partial } = sounding;
    const key = [
      passage.board.name,
      stringIndex,
      hz,
      length,
      partial,
      sounding.touch?.fraction,
      of.dynamic,
      of.plucked,
      seconds.toFixed(3),
    ].join(' ');
    const known = this.tones.get(key);
    if (known) return known;
    const samples = renderTone(passage.board, sounding, of.dynamic, seconds, context.sampleRate, of.plucked);
    if (samples.length === 0) return undefined;
    const buffer = context.createBuffer(1, samples.length, context.sampleRate);
    buffer.getChannelData(0).set(samples);
    if (this.tones.size >= KEPT) this.tones.clear();
    this.tones.set(key, buffer);
    return buffer;
  }
}

/** One playing, from its start to its end. */
class Run {
  private readonly cues: Generator<Cue, void>;
  private next: Cue | undefined;
  private readonly reaches: { readonly at: number; readonly event: number }[] = [];
  private readonly out: GainNode;
  private timer: number | undefined;
  /** The context's time at which the schedule's clock is 0. */
  private zero = 0;
  private finish = Number.POSITIVE_INFINITY;
  private stopped = false;

  constructor(
    private readonly context: AudioContext,
    passage: ScenePassage,
    order: PlayOrder,
    private readonly tone: (event: number, note: number, seconds: number, above: number) => AudioBuffer | undefined,
    private readonly events: PlayEvents,
  ) {
    this.cues = schedule(passage, order);
    this.out = throughBody(context, passage.board.family);
  }

  start(): void {
    this.zero = this.context.currentTime + LEAD;
    this.advance();
    this.tick();
  }

  stop(): void {
    if (this.stopped) return;
    this.stopped = true;
    window.clearTimeout(this.timer);
    // A moment's fall instead of a crack.
    this.out.gain.setTargetAtTime(0, this.context.currentTime, 0.02);
    window.setTimeout(() => this.out.disconnect(), 250);
    this.events.end();
  }

  private advance(): void {
    const { value, done } = this.cues.next();
    this.next = done ? undefined : value;
  }

  private readonly tick = (): void => {
    if (this.stopped) return;
    const until = performance.now() + TICK / 2;
    while (this.next && this.zero + this.next.at < this.context.currentTime + AHEAD) {
      this.perform(this.next);
      this.advance();
      // Working out tones must not hold up the page: the rest waits for the next tick while there is time.
      if (performance.now() > until && this.next && this.zero + this.next.at > this.context.currentTime + AHEAD / 4) break;
    }
    while (this.reaches[0] && this.reaches[0].at + this.zero <= this.context.currentTime)
      this.events.reach(this.reaches.shift()!.event);
    if (this.context.currentTime >= this.finish + this.zero) this.stop();
    else this.timer = window.setTimeout(this.tick, TICK);
  };

  private perform(cue: Cue): void {
    if (cue.kind === 'end') this.finish = cue.at;
    else if (cue.kind === 'reach') this.reaches.push(cue);
    else if (cue.kind === 'click') this.click(this.due(cue.at), cue.strong);
    else {
      const buffer = this.tone(cue.event, cue.note, cue.seconds, cue.above);
      if (!buffer) return;
      const source = new AudioBufferSourceNode(this.context, { buffer });
      source.connect(this.out);
      source.start(this.due(cue.at));
    }
  }

  /** When to sound it. Where working out took longer than there was time, everything from here on comes later. */
  private due(at: number): number {
    const late = this.context.currentTime + 0.01 - (this.zero + at);
    if (late > 0) this.zero += late;
    return this.zero + at;
  }

  private click(at: number, strong: boolean): void {
    const tick = new OscillatorNode(this.context, { frequency: strong ? 1760 : 1175, type: 'triangle' });
    const gain = new GainNode(this.context, { gain: 0 });
    gain.gain.setValueAtTime(strong ? 0.9 : 0.55, at);
    gain.gain.exponentialRampToValueAtTime(0.001, at + 0.05);
    tick.connect(gain).connect(this.out);
    tick.start(at);
    tick.stop(at + 0.06);
  }
}

/** What all sound goes through: the instrument's body and a limit to loudness. */
function throughBody(context: AudioContext, family: SceneBoard['family']): GainNode {
  const size = BODY_SIZE[family];
  const first = new GainNode(context, { gain: 0.42 });
  let last: AudioNode = first;
  for (const { hz, gain, q } of BODY) {
    last = last.connect(new BiquadFilterNode(context, { type: 'peaking', frequency: hz * size, gain, Q: q }));
  }
  last = last.connect(new BiquadFilterNode(context, { type: 'lowpass', frequency: 7000, Q: 0.5 }));
  last.connect(new DynamicsCompressorNode(context, { threshold: -10, ratio: 6 })).connect(context.destination);
  return first;
}
