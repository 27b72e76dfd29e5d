/** Write protection: a supply that comes and goes while somebody holds, presses and lets go of the button that writes. */
import fc from 'fast-check';
import { describe, expect } from 'vitest';
import { powerUpsAndDowns } from '../support/power-sequence.ts';
import { trial } from '../support/trial.ts';

/** Power-ups a case. */
const TIMES = 50;

describe.each(['eeprom-2kx8', 'eeprom-8kx8', 'eeprom-32kx8', 'eeprom-64kx8'])('%s', (id) => {
  const cases = fc.record({ seed: fc.integer(), farads: fc.constantFrom('100n', '22p') });
  trial('keeps every byte through power-ups and power-downs', { cases, sample: 1, full: 200 }, ({ seed, farads }) => {
    const { writes, kept } = powerUpsAndDowns(id, TIMES, seed, farads);
    expect(kept.filter((k) => !k)).toEqual([]);
    expect(kept).toHaveLength(TIMES);
    // there were pulses, and the lock-out is why they did nothing
    expect(writes.length).toBeGreaterThan(5);
    expect(writes.filter((w) => w.outcome !== 'ignored')).toEqual([]);
    const locked = writes.filter((w) => w.faults.some((f) => f.fault === 'just-powered')).length;
    expect(locked).toBeGreaterThan(5);
    return { kind: `decoupled by ${farads}`, pulses: writes.length, locked };
  });
});
