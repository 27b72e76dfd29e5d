/**
 * Inductance in time, by the running bench's own steps, against closed forms (P. Horowitz, W. Hill, The Art of Electronics, ch. 1, and any text on linear
 * circuits; from memory): rise and decay with L/R, stored energy, a resonant circuit's period and damping. The relative error of each is printed.
 */
import { afterAll, expect, test } from 'vitest';
import { COIL_SCALE } from '../../sim-core/devices/coil.ts';
import { GROUND, Network } from '../../sim-core/devices/network.ts';
import { schematic } from '../support/schematic.ts';
import { byOdex, stepped } from '../support/stepping.ts';

interface Circuit {
  readonly says: string;
  /** relative error that is allowed */
  readonly within: number;
  pairs(): ReadonlyArray<readonly [ours: number, theirs: number]>;
}

const NO_LOSS = Number.POSITIVE_INFINITY;

/** 100 mH of 125 Ω behind a supply of 5 V and 1 Ω. */
function rise(): Circuit {
  return {
    says: 'L/R rise: i = V/R·(1 − exp(−t·R/L))',
    within: 1e-6,
    pairs() {
      const [volts, ohms, henries] = [5, 125, 0.1];
      const network = new Network(1);
      const supply = network.addSupply(0, GROUND, { volts, ohms: 1, amps: 1 });
      const coil = network.addCoil(0, GROUND, { ohms, henries, loss: NO_LOSS });
      network.seal();
      network.switchSupply(supply, true);
      const tau = henries / (ohms + 1);
      const times = [0.1, 0.5, 1, 2, 4, 8].map((k) => k * tau);
      const { at } = stepped(network, [0, 0], times);
      return times.map((t, k) => [network.current(coil, at[k]!), (-volts / (ohms + 1)) * Math.expm1(-t / tau)] as const);
    },
  };
}

/** The current that a coil has goes round through a resistor: decay, and all of its energy becomes heat there and in its wire. */
function decay(): Circuit {
  return {
    says: 'L/R decay: i = I·exp(−t·R/L); of ½·L·I² what is gone is heat, R·∫i²·dt',
    within: 1e-6,
    pairs() {
      const [ohms, henries, across, begun] = [20, 10e-3, 80, 0.04];
      const network = new Network(1);
      network.addConductance(0, GROUND, 1 / across);
      const coil = network.addCoil(0, GROUND, { ohms, henries, loss: NO_LOSS });
      network.seal();
      const tau = henries / (ohms + across);
      const times = [0.1, 0.5, 1, 2, 3].map((k) => k * tau);
      const { at } = stepped(network, [0, begun / COIL_SCALE], times);
      return times.flatMap((t, k) => {
        const ours = network.current(coil, at[k]!);
        const heat = ((ohms + across) * begun ** 2 * tau * -Math.expm1((-2 * t) / tau)) / 2;
        return [[ours, begun * Math.exp(-t / tau)] as const, [0.5 * henries * (begun ** 2 - ours ** 2), heat] as const];
      });
    },
  };
}

/** A capacitor of 1 µF at 5 V and a coil of 10 mH: v(t) of the two, by the roots of s² + s·R/L + 1/(L·C). */
function resonant(says: string, ohms: number): Circuit {
  return {
    says,
    within: 2e-6,
    pairs() {
      const [volts, henries, farads] = [5, 10e-3, 1e-6];
      const network = new Network(1);
      network.addCapacitor(0, GROUND, farads);
      network.addCoil(0, GROUND, { ohms, henries, loss: NO_LOSS });
      network.seal();
      const decayRate = ohms / (2 * henries);
      const omega = Math.sqrt(1 / (henries * farads) - decayRate ** 2);
      const period = (2 * Math.PI) / omega;
      const times = [0.1, 0.4, 0.9, 1, 2].map((k) => k * period);
      const { at } = stepped(network, [volts, 0], times);
      const v = (t: number) => volts * Math.exp(-decayRate * t) * (Math.cos(omega * t) + (decayRate / omega) * Math.sin(omega * t));
      // in parts of what it began with: at some moments it passes zero
      return times.map((t, k) => [1 + at[k]![0]! / volts, 1 + v(t) / volts] as const);
    },
  };
}

const CIRCUITS: readonly Circuit[] = [
  rise(),
  decay(),
  resonant('LC: the period is 2π·√(L·C) (a wire of 1 mΩ)', 1e-3),
  motor(),
  resonant('RLC, damped: a ring of a hundredth', 20),
];

/** A motor of 3 V from standstill, with the losses of its winding; by a general ODE library, and at the end what its sheet would say. */
function motor(): Circuit {
  return {
    says: 'DC motor: current and speed from standstill (odex), no-load current and speed of its sheet',
    // a ten-thousandth of a second from standstill its back EMF is a millivolt, and steps are accurate to 1 µV
    within: 1e-5,
    pairs() {
      const [volts, stall, idle, rpm, source] = [3, 0.8, 0.1, 9000, 1e-3];
      const { sim } = schematic(`bench-supply PS1 3 with ohms ${source}, amps 10
        dc-motor M1
        wire W1 from PS1.+ to {A}
        wire W2 from M1.+ to {A}
        wire W3 from PS1.- to {B}
        wire W4 from M1.- to {B}`);
      // as the part's file has it: L/R 0.2 ms, 30 ms to its speed, losses beside L of 2·√(L/50 pF)
      const ohms = volts / stall;
      const henries = 0.2e-3 * ohms;
      const loss = 2 * Math.sqrt(henries / 50e-12);
      const emf = volts - ohms * idle;
      const [inertia, friction] = [30e-3 / ohms, idle / emf];
      const share = loss / (loss + ohms);
      const current = (i: number, e: number) => (share * i + (volts - e) / (loss + ohms)) / (1 + source / (loss + ohms));
      const times = [1e-4, 3e-4, 1e-3, 1e-2, 5e-2, 0.15];
      const theirs = byOdex(
        ([i = 0, e = 0]) => {
          const all = current(i, e);
          return [(share * (volts - source * all - e - ohms * i)) / henries, (all - friction * e) / inertia];
        },
        [0, 0],
        times,
      );
      sim.begin({ do: 'set', part: 'PS1', pole: 0, closed: true });
      const ours = times.map((t, k) => {
        sim.wait(t - (times[k - 1] ?? 0));
        return sim.readings().coils[0]!;
      });
      const inTime = theirs.flatMap(([i = 0, e = 0], k) => [
        [ours[k]!.amps, current(i, e)] as const,
        [ours[k]!.rpm!, (rpm / emf) * e] as const,
      ]);
      sim.wait(1);
      const { amps, rpm: turns } = sim.readings().coils[0]!;
      // in proportion to what is left of 3 V
      const left = volts / (volts + source * idle);
      return [...inTime, [amps, idle * left], [turns!, rpm * left]];
    },
  };
}

const printed: string[] = [];
test.each(CIRCUITS)('$says', ({ says, within, pairs }) => {
  const errors = pairs().map(([ours, theirs]) => Math.abs(ours / theirs - 1));
  const worst = Math.max(...errors);
  printed.push(`  ${worst.toExponential(1).padStart(8)}  (allowed ${within})  ${says}`);
  expect(errors.length).toBeGreaterThan(0);
  expect(worst).toBeLessThan(within);
});

afterAll(() => console.log(['Coils, largest relative error:', ...printed].join('\n')));
