import { writeFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import UPNG from 'upng-js';

/** Colours of the whole picture: enough for text with soft edges, few enough for a small file. */
const COLOURS = 64;

/** Screenshots one after another, as one animated PNG (PNG, third edition, W3C 2025, section 11.3.6). */
export class MovingPicture {
  private readonly frames: ArrayBuffer[] = [];
  private readonly delays: number[] = [];
  private size = { width: 0, height: 0 };

  constructor(private readonly page: Page) {}

  /** What the window shows now, to stand for so long, ms. */
  async frame(delay: number): Promise<void> {
    const image = UPNG.decode(new Uint8Array(await this.page.screenshot()).buffer);
    const [pixels] = UPNG.toRGBA8(image);
    if (pixels) this.frames.push(pixels);
    this.delays.push(delay);
    this.size = { width: image.width, height: image.height };
  }

  /** Returns how large the file is, bytes. */
  write(path: string): number {
    const file = UPNG.encode(this.frames, this.size.width, this.size.height, COLOURS, this.delays);
    writeFileSync(path, new Uint8Array(file));
    return file.byteLength;
  }
}
