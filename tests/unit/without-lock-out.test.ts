/** What the lock-out is for: a memory that had none would be spoiled by the same hands. No part is like that, so its times are changed here. */
import { afterEach, expect, test, vi } from 'vitest';

const TIMING = '../../sim-core/parts/memory/timing.ts';

/** The files of a worker share their modules: what was loaded with other times goes with the test. */
afterEach(() => {
  vi.doUnmock(TIMING);
  vi.resetModules();
});

test('without lock-out a button moved while the supply comes up spoils bytes', async () => {
  vi.doMock(TIMING, async (original) => {
    const real = (await original()) as { eeprom2kTiming: object };
    return { ...real, eeprom2kTiming: { ...real.eeprom2kTiming, writeInhibit: 2, powerUp: 0 } };
  });
  vi.resetModules();
  const { powerUpsAndDowns } = await import('../support/power-sequence.ts');
  const { writes, kept } = powerUpsAndDowns('eeprom-2kx8', 50, 1);
  expect(kept.filter((k) => !k).length).toBeGreaterThan(0);
  expect(writes.filter((w) => w.outcome !== 'ignored').length).toBeGreaterThan(5);
});
