/**
 * Output levels of each technology at the currents that its sheets name, and at others that nothing was fitted to: what a loaded pin stands at. A typical
 * specimen keeps every limit, the weakest that sheets allow is no better than they promise and keeps it where it is promised.
 */
import { describe, expect, test } from 'vitest';
import { start } from '../support/bench.ts';
import { logicBench } from '../support/logic-bench.ts';

type Drive = 'typical' | 'guaranteed';
interface Promise {
  readonly side: 'high' | 'low';
  readonly amps: number;
  /** at least when high, at most when low [V] */
  readonly volts: number;
}

/** A resistor that takes so much at the promised voltage: at a better one it takes more, at a worse one less. */
const loadFor = ({ side, amps, volts }: Promise, supply: number): number => (side === 'high' ? volts : supply - volts) / amps;

/** An inverting gate with a resistor at its output [V]. */
function gate(family: string, supply: number, promise: Promise, drive: Drive): number {
  const bench = logicBench('hex-inverter', {
    family,
    volts: supply,
    drive,
    more: (hole) => `resistor RL ${loadFor(promise, supply)} from ${hole('1Y')} to ${promise.side === 'high' ? '-j20' : '+j20'}`,
  });
  bench.set({ '1A': promise.side === 'high' ? 0 : 1 });
  return bench.volts('1Y');
}

const says = (p: Promise) => `${p.side} at ${p.amps * 1e3} mA`;
const high = (amps: number, volts: number): Promise => ({ side: 'high', amps, volts });
const low = (amps: number, volts: number): Promise => ({ side: 'low', amps, volts });
/** Curves go through their points; what a stage takes itself beside the load, and the wires, are some millivolts. */
const NEAR = 5e-3;
const keeps = (volts: number, p: Promise): boolean => (p.side === 'high' ? volts >= p.volts - NEAR : volts <= p.volts + NEAR);

// at 4.5 V and 25 °C: 4 mA SOURCES.md S15; 20 µA, and that HCT promises the same, from memory
const CMOS = [high(20e-6, 4.4), low(20e-6, 0.1), high(4e-3, 3.98), low(4e-3, 0.26)];
// at 4.75 V: 2.7 V at 0.4 mA and 0.5 V at 8 mA SOURCES.md S17; 0.4 V at 4 mA from memory
const BIPOLAR = [high(0.4e-3, 2.7), low(4e-3, 0.4), low(8e-3, 0.5)];

describe.each([
  ['HC', 4.5, CMOS],
  ['HCT', 4.5, CMOS],
  ['LS', 4.75, BIPOLAR],
] as const)('an inverter of %s at %s V', (family, supply, promises) => {
  test.each(promises.map((p) => [says(p), p] as const))('keeps what is promised: %s', (_, promise) => {
    expect(keeps(gate(family, supply, promise, 'typical'), promise)).toBe(true);
    expect(keeps(gate(family, supply, promise, 'guaranteed'), promise)).toBe(true);
  });
  test('the weakest is weaker than a typical one, at every one of these currents', () => {
    for (const p of promises) {
      const [weak, usual] = (['guaranteed', 'typical'] as const).map((d) => gate(family, supply, p, d));
      expect(p.side === 'high' ? weak! < usual! : weak! > usual!, says(p)).toBe(true);
    }
  });
});

// from memory, at 25 °C and 4.5 V: an HC output that gives or takes 20 µA is within a few millivolts of its rail
test('HC and HCT at 20 µA are 4.499 V and 1 mV, typically', () => {
  for (const family of ['HC', 'HCT']) {
    expect(Math.abs(gate(family, 4.5, high(20e-6, 4.4), 'typical') - 4.499)).toBeLessThan(2e-3);
    expect(Math.abs(gate(family, 4.5, low(20e-6, 0.1), 'typical') - 0.001)).toBeLessThan(2e-3);
  }
});

/** D0 of a memory that reads `byte` at address 0, with a resistor at it [V]. */
function memory(kind: keyof typeof TIED, promise: Promise, drive: Drive, supply = 4.5): number {
  const { low: down, high: up } = TIED[kind];
  const address = [12, 13, 14, 15, 16, 17, 18, 19].map((row) => `wire A${row} from a${row} to -a${row + 20}`);
  const tied = down.map((row) => `wire T${row} from j${row} to -j${row + 20}`);
  const raised = [12, ...up].map((row) => `wire H${row} from i${row} to +j${row + 20}`);
  const sim = start(
    [
      `outputs ${drive}`,
      'board-63 B1',
      `bench-supply PS1 ${supply} with ohms 1m`,
      'wire P1 from PS1.+ to +j1',
      'wire P2 from PS1.- to -j1',
      'wire P3 from -j2 to -a1',
      'wire P4 from +j2 to +a1',
      'switch PS1 set 1',
      `${kind} U1 at d12`,
      ...address,
      ...tied,
      ...raised,
      'wire G from a23 to -a45',
      `memory U1 000 ${promise.side === 'high' ? 'FF' : '00'}`,
      'meter M1 volts at b20',
      `resistor RL ${loadFor(promise, supply)} from c20 to ${promise.side === 'high' ? '-a50' : '+a50'}`,
    ].join('\n'),
  );
  sim.wait(1e-3);
  return sim.readings().meters.M1 ?? Number.NaN;
}
/** Rows of the upper side, pins 23 to 18, tied to minus and to plus: address 0, read enabled. */
const TIED = {
  'eeprom-2kx8': { low: [13, 14, 16, 17, 18], high: [15] },
  'uv-eprom-2kx8': { low: [13, 14, 16, 17, 18], high: [15] },
  'mask-rom-2kx8': { low: [13, 14, 15, 16, 17], high: [18] },
  'prom-2kx8': { low: [13, 14, 15, 16], high: [17, 18] },
} as const;

// at 4.5 V, of an EEPROM 2.4 V at 0.4 mA and 0.4 V at 2.1 mA: SOURCES.md S2, S4; of the others from memory: N-channel ones 0.45 V at 2.1 mA, or 2.4 V at
// 0.2 mA only, a bipolar one 2.4 V at 2 mA and 0.5 V at 16 mA
describe.each([
  ['eeprom-2kx8', [high(0.4e-3, 2.4), low(2.1e-3, 0.4)]],
  ['uv-eprom-2kx8', [high(0.4e-3, 2.4), low(2.1e-3, 0.45)]],
  ['mask-rom-2kx8', [high(0.2e-3, 2.4), low(2.1e-3, 0.4)]],
  ['prom-2kx8', [high(2e-3, 2.4), low(16e-3, 0.5)]],
] as const)('a %s', (kind, promises) => {
  test.each(promises.map((p) => [says(p), p] as const))('keeps what is promised: %s', (_, promise) => {
    for (const drive of ['typical', 'guaranteed'] as const) expect(keeps(memory(kind, promise, drive), promise), drive).toBe(true);
  });
});

// from memory, at 5 V: an N-channel stage gives 2 to 4 mA, and a bipolar one 2 to 6, at the 2.4 V of a TTL high; a CMOS one more than either
test('into 2.4 V a CMOS memory gives more than an N-channel or a bipolar one', () => {
  const amps = (kind: keyof typeof TIED, ohms: number) => memory(kind, high(2.4 / ohms, 2.4), 'typical', 5) / ohms;
  const at600 = (kind: keyof typeof TIED) => 1e3 * amps(kind, 600);
  expect(at600('eeprom-2kx8')).toBeGreaterThan(6);
  for (const kind of ['uv-eprom-2kx8', 'mask-rom-2kx8', 'prom-2kx8'] as const) {
    expect(at600(kind)).toBeGreaterThan(2);
    expect(at600(kind)).toBeLessThan(6);
  }
});
