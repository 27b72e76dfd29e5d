/** What is looked at while voltages are on their way: inputs by what has moved, overloads at their own pace, levels at their very limits. */
import { afterEach, describe, expect, test, vi } from 'vitest';
import { GROUND } from '../../sim-core/devices/network.ts';
import { ActiveSubcircuit } from '../../sim-core/run/analog/active-subcircuit.ts';
import { FloatingInputs } from '../../sim-core/run/analog/floating-inputs.ts';
import type { ChipSite } from '../../sim-core/run/circuit/sites.ts';
import { ChipRuntime, levelAt } from '../../sim-core/run/digital/chip-runtime.ts';
import { OverloadDamage } from '../../sim-core/run/readout/overload-damage.ts';
import type { Converged } from '../../sim-core/solve/newton.ts';
import { LED_ON_D0, MEMORY, READ_BY_S3, READY_TO_WRITE, start, writeNetwork } from '../support/bench.ts';

afterEach(() => void vi.restoreAllMocks());

describe('a write by hand', () => {
  const written = () => {
    const sim = start(`${MEMORY}${LED_ON_D0}${READY_TO_WRITE}${writeNetwork()}\nwire LA black from a19 to -a19`, { bounce: false });
    sim.wait(0.01);
    return sim;
  };

  test('asks of no input whether it floats while nothing but time has moved', () => {
    const sim = written();
    const floats = vi.spyOn(FloatingInputs.prototype, 'floats');
    const { deliver } = ChipRuntime.prototype;
    const asked: number[] = [];
    vi.spyOn(ChipRuntime.prototype, 'deliver').mockImplementation(function (this: ChipRuntime, ...args) {
      floats.mockClear();
      deliver.apply(this, args);
      if (args[3] === undefined) asked.push(floats.mock.calls.length);
    });
    sim.act({ do: 'press', part: 'SB1' });
    // the four marks of the pulse on /WE at least
    expect(asked.length).toBeGreaterThan(3);
    expect(new Set(asked)).toEqual(new Set([0]));
  });

  test('asks no matrix about inputs that a resistor or a wire holds straight to a rail', () => {
    const resistance = vi.spyOn(FloatingInputs.prototype, 'resistance');
    const sim = written();
    sim.act({ do: 'press', part: 'SB1' });
    expect(sim.events).toHaveLength(1);
    expect(resistance).not.toHaveBeenCalled();
  });

  test('is over long before overloads are looked at again on the way: 680 Ω and 1 nF need microseconds', () => {
    const sim = written();
    const follow = vi.spyOn(OverloadDamage.prototype, 'follow');
    const settle = vi.spyOn(OverloadDamage.prototype, 'settle');
    sim.act({ do: 'press', part: 'SB1' });
    expect(sim.events).toHaveLength(1);
    expect(settle).toHaveBeenCalled();
    expect(follow).not.toHaveBeenCalled();
  });
});

test('a bench that is switched to where it stood before is at rest after one step of Newton’s method', () => {
  const sim = start(MEMORY + LED_ON_D0 + READ_BY_S3, { bounce: false });
  const move = (closed: boolean) => sim.act({ do: 'set', part: 'S3', pole: 0, closed });
  for (const closed of [true, false]) move(closed);
  const rest = vi.spyOn(ActiveSubcircuit.prototype, 'rest');
  // the LED takes 10 mA more or less from the supply, which gives way to it
  for (const closed of [true, false]) move(closed);
  const steps = rest.mock.results.map((r) => (r.value as Converged).ok && r.value.iterations);
  expect(new Set(steps)).toEqual(new Set([1]));
});

describe('a level', () => {
  const site = { ground: { node: GROUND } } as unknown as ChipSite;
  const figures = { vil: 0.75, vih: 2 } as Parameters<typeof levelAt>[3]['figures'];
  const at = (volts: number, of?: number) =>
    levelAt(Float64Array.of(volts, 4, 0), 0, site, { figures, ...(of === undefined ? {} : { of }) });
  test('is guaranteed at its limits themselves, and undefined between them', () => {
    expect([0.75, 0.7501, 1.9999, 2].map((v) => at(v))).toEqual(['L', 'X', 'X', 'H']);
    // limits that are parts of the supply: here four times as high
    expect([3, 3.001, 7.999, 8].map((v) => at(v, 1))).toEqual(['L', 'X', 'X', 'H']);
  });
});
