/**
 * Runs a task at once, then at most once every `rest` ms, and never twice at the same time; whatever is asked
 * for meanwhile becomes one last run. A failing run counts as run: the next call tries again.
 */
export class Throttle {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private running = false;
  private again = false;
  private disposed = false;

  constructor(
    private readonly rest: number,
    private readonly task: () => Promise<void> | void,
  ) {}

  run(): void {
    if (this.disposed) return;
    if (this.running || this.timer) {
      this.again = true;
      return;
    }
    this.running = true;
    this.again = false;
    const finish = () => {
      this.running = false;
      if (this.disposed) return;
      this.timer = setTimeout(() => {
        this.timer = undefined;
        if (this.again) this.run();
      }, this.rest);
    };
    Promise.resolve()
      .then(() => this.task())
      .then(finish, finish);
  }

  dispose(): void {
    this.disposed = true;
    clearTimeout(this.timer);
  }
}
