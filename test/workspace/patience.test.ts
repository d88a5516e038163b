import { expect, test } from 'vitest';
import { worthAnother } from '../../dashboard/client/patience.ts';

const died = (at: number, started = true) => ({ at, started });

test('a worker that died once, or twice, is started again', () => {
  expect(worthAnother([died(0)])).toBe(true);
  expect(worthAnother([died(0), died(1_000)])).toBe(true);
});

test('a third death within two minutes ends it; a third after a long while does not', () => {
  expect(worthAnother([died(0), died(50_000), died(100_000)])).toBe(false);
  expect(worthAnother([died(0), died(50_000), died(130_000)])).toBe(true);
});

test('a start that leads nowhere is tried once more, however slow it was', () => {
  expect(worthAnother([died(0, false)])).toBe(true);
  expect(worthAnother([died(0, false), died(400_000, false)])).toBe(false);
  expect(worthAnother([died(0, false), died(10_000)])).toBe(true);
});
