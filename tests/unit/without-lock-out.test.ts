/** What the lock-out is for: a memory that had none would be spoiled by the same hands. No part on the shelf is like that, so its times are changed here. */
import { expect, test, vi } from 'vitest';
import { powerUpsAndDowns } from '../support/power-sequence.ts';

vi.mock('../../sim-core/parts/memory/timing.ts', async (original) => {
  const real = (await original()) as { eeprom2kTiming: object };
  return { ...real, eeprom2kTiming: { ...real.eeprom2kTiming, writeInhibit: 2, powerUp: 0 } };
});

test('without lock-out a button moved while the supply comes up spoils bytes', () => {
  const { writes, kept } = powerUpsAndDowns('eeprom-2kx8', 50, 1);
  expect(kept.filter((k) => !k).length).toBeGreaterThan(0);
  expect(writes.filter((w) => w.outcome !== 'ignored').length).toBeGreaterThan(5);
});
