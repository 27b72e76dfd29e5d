/** Thirty bounces of a contact on a capacitor, against the piecewise closed form; and the write pulse over many resistors and capacitors. */
import { describe, expect, test } from 'vitest';
import { siFormat } from '../../sim-core/index.ts';
import { makeRandom } from '../../sim-core/units/random.ts';
import { MEMORY, start, writeNetwork } from '../support/bench.ts';
import { writePulseByHand } from '../support/write-pulse.ts';

describe('a contact that opens and closes thirty times', () => {
  // first-order network between two states, v → v∞ + (v − v∞)·e^(−t/τ): textbook closed form, Thevenin's theorem for v∞ and τ
  const [R, BLEED, C, OPEN, CLOSED] = [1e3, 10e3, 10e-9, 10e9, 0.1];
  const towards = (contact: number) => {
    const feed = R + contact + 0.001;
    return { rest: (5 * BLEED) / (BLEED + feed), tau: (C * BLEED * feed) / (BLEED + feed) };
  };

  for (const [says, shortest, longest] of [
    ['from 1 to 30 µs apart', 1e-6, 30e-6],
    ['from 20 ns to 1 µs apart', 20e-9, 1e-6],
    ['from 0.1 to 3 ms apart, at rest in between', 1e-4, 3e-3],
  ] as const)
    test(`charges and lets go by the closed form within 0.1 %, bounces ${says}`, () => {
      const sim = start(
        `
        board-30 B1
        bench-supply PS1 with ohms 1m
        dip-switch S1 at e1 with poles 1
        wire W1 red from PS1.+ to a1
        wire W2 black from PS1.- to a9
        wire W3 green from j1 to a4
        resistor R1 1k from b4 to b5
        resistor R2 10k from c5 to c9
        capacitor C1 10n from d5 to d9
        switch PS1 set 1`,
        { bounce: false },
      );
      const net = sim.circuit.nets.ofStrip.get('B1/5a')!.index;
      const volts = () => sim.readings().nets[net]!.volts;
      const random = makeRandom(30);
      let exact = towards(OPEN).rest;
      expect(Math.abs(volts() / exact - 1)).toBeLessThan(1e-3);
      for (let k = 0; k < 60; k++) {
        const closed = k % 2 === 0;
        const lasts = shortest * (longest / shortest) ** random();
        const { rest, tau } = towards(closed ? CLOSED : OPEN);
        expect(sim.begin({ do: 'set', part: 'S1', pole: 0, closed }).ok).toBe(true);
        expect(sim.wait(lasts)).toBe(true);
        exact = rest + (exact - rest) * Math.exp(-lasts / tau);
        // an open contact leaves 5 µV, less than what the steps in time tell apart: 0.3 µV
        expect(Math.abs(volts() - exact)).toBeLessThan(1e-3 * exact + 3e-7);
      }
    });
});

describe('the write pulse, over resistors and capacitors', () => {
  const still = `${MEMORY}
    wire A1 black from a18 to -a17
    wire A2 black from a19 to -a18
    wire A3 red from i16 to +j20`;
  // the decoupling capacitor's lag behind the rail's sag (10 ns) is not in the closed form: 5e-5 at most
  // Thevenin: the working chip's 8 mA at 5 V as 1.6 mS across the supply's 0.1 Ω
  const rail = 1 / (1 + 0.1 * 0.0016);

  for (const ohms of [470, 680, 1000, 2200, 4700])
    for (const farads of [470e-12, 1e-9, 2.2e-9, 10e-9])
      test(`${siFormat(ohms, 'Ω')} and ${siFormat(farads, 'F')} give both widths as the two exponentials do, within 0.01 %`, () => {
        const sim = start(still + writeNetwork(String(ohms), String(farads)), { bounce: false });
        sim.wait(0.01);
        sim.act({ do: 'press', part: 'SB1' });
        expect(sim.events).toHaveLength(1);
        const { guaranteedLow, maximumLow } = sim.events[0]!;
        const exact = writePulseByHand({
          volts: 5 * rail,
          ohms: ohms + 0.1 * rail,
          farads,
          bleeder: 1e4,
          // the contact and the one bridge of the button that carries the current (parts/push-button.ts)
          contact: 0.2,
          open: 10e9,
          // one pin of /WE (parts/eeprom-2kx8.ts)
          pin: 6e-12,
        });
        expect(Math.abs(guaranteedLow / exact.guaranteedLow - 1)).toBeLessThan(1e-4);
        expect(Math.abs(maximumLow / exact.maximumLow - 1)).toBeLessThan(1e-4);
      });
});
