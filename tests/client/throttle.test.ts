import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Throttle } from '../../client/throttle';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

const settle = () => vi.advanceTimersByTimeAsync(0);

describe('a throttled task', () => {
  it('runs at once, then once more for all that was asked meanwhile', async () => {
    const task = vi.fn();
    const throttle = new Throttle(100, task);
    throttle.run();
    await settle();
    expect(task).toHaveBeenCalledTimes(1);
    for (let i = 0; i < 20; i++) throttle.run();
    await vi.advanceTimersByTimeAsync(99);
    expect(task).toHaveBeenCalledTimes(1);
    await vi.advanceTimersByTimeAsync(1);
    expect(task).toHaveBeenCalledTimes(2);
    await vi.advanceTimersByTimeAsync(1000);
    expect(task).toHaveBeenCalledTimes(2);
  });

  it('never runs beside itself, however long it takes', async () => {
    let under = 0;
    let most = 0;
    const throttle = new Throttle(10, async () => {
      most = Math.max(most, ++under);
      await new Promise((done) => setTimeout(done, 500));
      under--;
    });
    for (let i = 0; i < 50; i++) {
      throttle.run();
      await vi.advanceTimersByTimeAsync(30);
    }
    await vi.advanceTimersByTimeAsync(2000);
    expect(most).toBe(1);
  });

  it('runs again after it failed', async () => {
    const task = vi.fn().mockRejectedValueOnce(new Error('no answer')).mockResolvedValue(undefined);
    const throttle = new Throttle(10, task);
    throttle.run();
    await vi.advanceTimersByTimeAsync(20);
    throttle.run();
    await vi.advanceTimersByTimeAsync(20);
    expect(task).toHaveBeenCalledTimes(2);
  });

  it('runs no more once disposed of', async () => {
    const task = vi.fn();
    const throttle = new Throttle(10, task);
    throttle.run();
    await settle();
    throttle.run();
    throttle.dispose();
    await vi.advanceTimersByTimeAsync(100);
    throttle.run();
    await vi.advanceTimersByTimeAsync(100);
    expect(task).toHaveBeenCalledTimes(1);
  });
});
