/** How far something long has come, on standard error where a person watches; nothing where only a program does. */
export interface ProgressBar {
  /** Goes on by so much of the whole. */
  step(by?: number): void;
  /** Takes the bar away. */
  stop(): void;
}

/**
 * @param doing what is being done
 * @param far how far it is: `{value}/{total}`, `{percentage} %`
 * @param total the whole, in any unit
 */
export async function progressBar(doing: string, far: string, total: number): Promise<ProgressBar> {
  if (!process.stderr.isTTY) return { step() {}, stop() {} };
  const { SingleBar } = await import('cli-progress');
  const bar = new SingleBar({
    format: `${doing} {bar} ${far}`,
    stream: process.stderr,
    hideCursor: true,
    clearOnComplete: true,
  });
  bar.start(total, 0);
  return { step: (by = 1) => bar.increment(by), stop: () => bar.stop() };
}
