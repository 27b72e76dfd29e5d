/** A Schmitt inverter of CMOS with a resistor from output to input and a capacitor to minus, against the closed form of an exponential between two thresholds. */
import { expect, test } from 'vitest';
import { start } from '../support/bench.ts';
import { inverters } from '../support/inverters.ts';

// period = RC·ln((V − VT−)/(V − VT+)·VT+/VT−): any text on RC circuits. Typical thresholds of HC: 1.6 and 2.5 V at 4.5 V (SOURCES.md S39), which makes .818 RC;
// of HCT 0.9 and 1.4 V at 4.5 V (from memory), at 4.5 V .563 RC. The output's own 45 Ω and the pin's 3.5 pF lengthen it by some tenths of a per cent
test.each([
  ['HC', 100e3, 10e-9, 0.818],
  ['HC', 22e3, 2.2e-9, 0.818],
  ['HC', 47e3, 1e-6, 0.818],
  ['HCT', 100e3, 10e-9, Math.log((3.6 / 3.1) * (1.4 / 0.9))],
  ['HCT', 22e3, 100e-9, Math.log((3.6 / 3.1) * (1.4 / 0.9))],
])('%s with %s Ω and %s F swings with its period, within 0.5 %', (family, ohms, farads, share) => {
  const bench = inverters(family, 1, `resistor R1 ${ohms} from b10 to c11\ncapacitor C1 ${farads} from a10 to -a9`);
  const sim = start(bench.replace('bench-supply PS1', 'bench-supply PS1 4.5 with ohms 1m'));
  const period = sim.readings().restless?.[0]?.period ?? 0;
  const error = period / (share * ohms * farads) - 1;
  console.log(`${family} Schmitt oscillator, ${ohms} Ω and ${farads} F: ${period} s, relative error ${error.toExponential(1)}`);
  expect(Math.abs(error)).toBeLessThan(0.005);
});
