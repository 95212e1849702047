import type { Frame } from 'playwright-core';

interface Ears extends Window {
  /** Everything on its way to the loudspeaker passes here first. */
  ear?: AnalyserNode;
}

/** Puts an ear before the loudspeaker of every audio context that the page makes from now on. */
export async function listen(frame: Frame): Promise<void> {
  await frame.evaluate(() => {
    const connect = AudioNode.prototype.connect as (this: AudioNode, to: AudioNode, ...rest: number[]) => AudioNode;
    AudioNode.prototype.connect = function (this: AudioNode, to: AudioNode, ...rest: number[]) {
      if (to !== this.context.destination) return connect.call(this, to, ...rest);
      const ear = new AnalyserNode(this.context, { fftSize: 32768 });
      (window as Ears).ear = ear;
      connect.call(this, ear);
      return connect.call(ear, to);
    } as typeof AudioNode.prototype.connect;
  });
}

/** Root mean square of what was heard in the last half second or so, 1 being as loud as it goes. */
export function loudness(frame: Frame): Promise<number> {
  return frame.evaluate(() => {
    const { ear } = window as Ears;
    if (!ear) return 0;
    const heard = new Float32Array(ear.fftSize);
    ear.getFloatTimeDomainData(heard);
    return Math.sqrt(heard.reduce((sum, value) => sum + value * value, 0) / heard.length);
  });
}
