import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createSaver } from '../../dashboard/workspace/saver.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const pace = { quiet: 500, longest: 5_000 };

test('saves once after a quiet time, however many changes came before', async () => {
  const save = vi.fn(async () => true);
  const saver = createSaver(save, pace);
  for (let i = 0; i < 4; i++) {
    saver.mark();
    await vi.advanceTimersByTimeAsync(400);
  }
  expect(save).not.toHaveBeenCalled();
  await vi.advanceTimersByTimeAsync(100);
  expect(save).toHaveBeenCalledTimes(1);
  expect(saver.waiting()).toBe(false);
});

test('saves while changes go on, after the longest time', async () => {
  const save = vi.fn(async () => true);
  const saver = createSaver(save, pace);
  for (let i = 0; i < 30; i++) {
    saver.mark();
    await vi.advanceTimersByTimeAsync(400);
  }
  expect(save.mock.calls.length).toBeGreaterThanOrEqual(2);
});

test('a change during a save is saved after it, never beside it', async () => {
  let running = 0;
  let most = 0;
  const save = vi.fn(async () => {
    running += 1;
    most = Math.max(most, running);
    await new Promise((resolve) => setTimeout(resolve, 1_000));
    running -= 1;
    return true;
  });
  const saver = createSaver(save, pace);
  saver.mark();
  const first = saver.flush();
  saver.mark();
  const second = saver.flush();
  await vi.advanceTimersByTimeAsync(5_000);
  await Promise.all([first, second]);
  expect([save.mock.calls.length, most, saver.waiting()]).toEqual([2, 1, false]);
});

test('a refused save stays waiting and is tried again at the next flush', async () => {
  const save = vi.fn(async () => true).mockResolvedValueOnce(false);
  const saver = createSaver(save, pace);
  saver.mark();
  await saver.flush();
  expect(saver.waiting()).toBe(true);
  await saver.flush();
  expect([save.mock.calls.length, saver.waiting()]).toEqual([2, false]);
});

test('nothing is saved where nothing changed', async () => {
  const save = vi.fn(async () => true);
  await createSaver(save, pace).flush();
  expect(save).not.toHaveBeenCalled();
});
