/** What a meter shows of each technology: open high levels, currents into an LED, open inputs; each beside its source. */
import { describe, expect, test } from 'vitest';
import { findingsNow, plain, sayFinding } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

const FED =
  'board-63 B1\nbench-supply PS1 5 with ohms 1m\nwire P1 from PS1.+ to +j1\nwire P2 from PS1.- to -j1\nwire P3 from -j2 to -a1\nswitch PS1 set 1\n';
const toMinus = (id: string, row: number, upper = false) =>
  `wire ${id} from ${upper ? 'j' : 'a'}${row} to ${upper ? '-j' : '-a'}${row - 2}\n`;
/** Rows of a chip's upper side at d12, pins 23 to 18, tied to minus and to plus: address 0, read enabled. */
const MEMORIES = {
  'eeprom-2kx8': { low: [13, 14, 16, 17, 18], high: [15] },
  'uv-eprom-2kx8': { low: [13, 14, 16, 17, 18], high: [15] },
  'mask-rom-2kx8': { low: [13, 14, 15, 16, 17], high: [18] },
  'prom-2kx8': { low: [13, 14, 15, 16], high: [17, 18] },
} as const;

/** D0 (pin 9, row 20) reads FF at address 0. */
function memoryReading(kind: keyof typeof MEMORIES, load: string) {
  const { low, high } = MEMORIES[kind];
  const address = [12, 13, 14, 15, 16, 17, 18, 19].map((row) => `wire A${row} from a${row} to -a${row + 20}\n`).join('');
  const tied = low.map((row) => `wire T${row} from j${row} to -j${row + 20}\n`).join('');
  const up = [12, ...high].map((row) => `wire H${row} from i${row} to +j${row + 20}\n`).join('');
  const sim = start(
    `${FED}${kind} U1 at d12\n${address}${tied}${up}wire G from a23 to -a45\nmemory U1 000 FF\nmeter M1 volts at b20\n${load}`,
  );
  sim.wait(1e-3);
  return sim.readings();
}

const LED = 'led LED1 red from c40 to c44\nresistor R1 330 from a44 to -a47\nwire L1 from c20 to a40\n';

// open and into a red LED over 330 Ω, from memory: CMOS 4.9 to 5 V and 6 to 7 mA, N-channel 3.4 to 4 V and 2 to 4 mA, bipolar 3.4 to 3.7 V and 2 to 4 mA
describe.each([
  ['eeprom-2kx8', [4.9, 5], [6, 7]],
  ['uv-eprom-2kx8', [3.4, 4], [2, 4]],
  ['mask-rom-2kx8', [3.4, 4], [2, 4]],
  ['prom-2kx8', [3.4, 3.7], [2, 4]],
] as const)('the high level of a %s', (kind, [least, most], [dim, bright]) => {
  test(`is ${least} to ${most} V open`, () => {
    const volts = memoryReading(kind, '').meters.M1;
    expect(volts).toBeGreaterThanOrEqual(least);
    expect(volts).toBeLessThanOrEqual(most);
  });
  test(`gives ${dim} to ${bright} mA to an LED`, () => {
    const milliamps = 1e3 * memoryReading(kind, LED).leds[0]!.amps;
    expect(milliamps).toBeGreaterThanOrEqual(dim);
    expect(milliamps).toBeLessThanOrEqual(bright);
  });
});

// open and into a red LED over 330 Ω, from memory: bipolar logic 3.4 to 3.7 V (a drop of two junctions that carry next to nothing: up to 3.9 V here) and 2 to
// 4 mA; CMOS 4.9 to 5 V and, behind the 45 Ω of SOURCES.md S15, 7 to 9 mA (derived)
test.each([
  ['LS', [3.4, 3.9], [2, 4]],
  ['HC', [4.9, 5], [7, 9]],
  ['HCT', [4.9, 5], [7, 9]],
] as const)('the high level of a NAND gate of %s, open and into an LED', (family, [least, most], [dim, bright]) => {
  const sim = (load: string) =>
    start(
      `${FED}wire P4 from +j2 to +a1\nquad-nand U1 ${family} at e20\nwire V from j20 to +j18\nwire G from a26 to -a28\n${toMinus('E', 20)}meter M1 volts at b22\n${load}`,
    );
  const open = sim('').readings().meters.M1;
  expect(open).toBeGreaterThan(least);
  expect(open).toBeLessThan(most);
  const milliamps = 1e3 * sim(LED.replace('c20', 'c22')).readings().leds[0]!.amps;
  expect(milliamps).toBeGreaterThan(dim);
  expect(milliamps).toBeLessThan(bright);
});

// from memory: an open LS input reads 1.4 to 1.6 V and counts as high, with 22 kΩ to minus about 1.1 V, which is undefined; low with 1 kΩ to minus. What
// leaks out of it only raises it, so 22 kΩ to plus hold it
describe.each([
  ['open', '', 1.4, 1.6, 'H'],
  ['on a capacitor that it charges', 'capacitor C1 10n from a21 to -a25\n', 1.4, 1.6, 'H'],
  ['with 22 kΩ to minus', 'resistor R1 22k from a21 to -a25\n', 1.0, 1.2, 'X'],
  ['with 1 kΩ to minus', 'resistor R1 1k from a21 to -a25\n', 0.1, 0.4, 'L'],
  ['with 22 kΩ to plus', 'resistor R1 22k from a21 to +a25\n', 4.9, 5, 'H'],
] as const)('an LS input, %s', (name, load, least, most, level) => {
  // octal buffer at e20: pin 2 is row 21 below, pin 20 row 20 above; its output, pin 18, leads to a resistor
  const sim = start(
    `${FED}wire P4 from +j2 to +a1\noctal-buffer U1 LS at e20\nwire V from j20 to +j18\nwire G from a29 to -a30\n${toMinus('E', 20)}resistor R2 4k7 from j22 to -j25\nmeter M1 volts at b21\n${load}`,
  );
  sim.wait(1e-2);
  const seen = sim.readings();
  test(`stands at ${least} to ${most} V and reads ${level}`, () => {
    expect(seen.meters.M1).toBeGreaterThan(least);
    expect(seen.meters.M1).toBeLessThan(most);
    const pin = (n: string) => seen.chips[0]!.pins.find((p) => p.pin === n)!.level;
    expect([pin('2'), pin('18')]).toEqual([level, level]);
  });
  test('is said to float where nothing holds it', () => {
    const says = findingsNow(sim).find((f) => f.code === 'input/floating' && f.at[0]?.id === 'U1.2');
    expect(says !== undefined).toBe(name === 'open' || name.startsWith('on a'));
    if (says) expect(plain(sayFinding(says, sim.plan()))).toMatch(/rests at 1\.5 V and counts as high/);
  });
});

// RC·ln(V∞/(V∞ − 2/3·V)), R beside the leak and V∞ their divider: closed form; a good electrolytic leaks 0.001·C·U, a poor one 0.01·C·U: from memory
describe('a monostable of 1 MΩ and 100 µF', () => {
  const bench = (outputs: string) => `${outputs}${FED}timer U1 at e10
    wire G from a10 to -a10
    wire V from j10 to +j10
    wire R from a13 to +a13
    wire P from +j30 to +a30
    wire D from i11 to i12
    resistor R1 1M from j11 to +j15
    electrolytic C1 100u from h12 to -j16
    resistor R2 10k from b11 to +a15
    push-button SB1 at e20
    wire B from c11 to a20
    wire M from a22 to -a24
    meter M1 volts at b12
  `;
  const ends = (outputs: string) => {
    const sim = start(bench(outputs), { bounce: false });
    sim.wait(1);
    sim.begin({ do: 'press', part: 'SB1' });
    sim.wait(0.01);
    sim.begin({ do: 'release', part: 'SB1' });
    const high = () => (sim.readings().meters.M1 ?? 0) > 1;
    expect(high()).toBe(true);
    let seconds = 0.01;
    for (; seconds < 400 && high(); seconds += 0.1) sim.wait(0.1);
    return seconds;
  };
  test('ends after the closed form with a good capacitor', () => {
    const leak = 10e6;
    const share = leak / (leak + 1e6);
    expect(ends('') / (100 * share * Math.log(share / (share - 2 / 3)))).toBeCloseTo(1, 2);
  });
  test('never ends with a poor one', () => {
    expect(ends('outputs guaranteed\n')).toBeGreaterThan(399);
  });
});
