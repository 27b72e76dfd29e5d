/** A memory from its data sheet: it makes a part that reads and writes as its sheet says, and a sheet that contradicts itself is refused in a sentence. */
import { describe, expect, test } from 'vitest';
import { partKind, readParams, writeBenchText } from '../../sim-core/index.ts';
import { planOf, start } from '../support/bench.ts';

const KIND = 'memory-from-sheet';
const read = (params: Record<string, string | number>) => readParams(partKind(KIND)!, { id: 'U1', kind: KIND, params });
const refusal = (params: Record<string, string | number>) => {
  const answer = read(params);
  return answer.ok ? undefined : answer.failure;
};

const SMALL = 'A3 A2 A1 A0 /CS D0 D1 GND D2 D3 NC NC NC NC /OE VCC';
const ROM_PINS = 'A7 A6 A5 A4 A3 A2 A1 A0 D0 D1 D2 GND D3 D4 D5 D6 D7 /CE A10 /OE NC A9 A8 VCC';

describe('a sheet that contradicts itself', () => {
  test.each<[Record<string, string | number>, string]>([
    [{ organisation: '4K x 8' }, 'U1: its organisation has 4096 words, but 11 address pins (A0 to A10) make 2048. Change one of the two.'],
    [{ organisation: '2K x 4' }, 'U1: its organisation has 4 bits, but it has 8 data pins. Change one of the two.'],
    [{ organisation: 'big' }, 'U1: its organisation is "big". Write words and bits, for example 2K x 8.'],
    [{ kind: 'ROM' }, 'U1: its sheet has a pin /WE, but a ROM cannot be written. Change its kind, or name the pin NC.'],
    [
      { pins: ROM_PINS },
      'U1: its sheet has no /WE, and an EEPROM is written with /WE low and read with /OE low. Add the pin, or change its kind.',
    ],
    [{ pins: SMALL.replace('D3', 'D2') }, 'U1: its sheet has D2 on pin 9 and on pin 10. Give each pin its own name.'],
    [{ pins: SMALL.replace('A3 ', 'A5 ') }, 'U1: its sheet has 4 A pins but no A3. Number them from A0 on without a gap.'],
    [{ pins: SMALL.replace('VCC', 'NC') }, 'U1: its sheet has no VCC. Name the pin that the supply goes to VCC.'],
    [
      { pins: `${SMALL} NC` },
      'U1: its sheet lists 17 pins, and a package has an even number from 14 to 40. List all pins in order of number, NC for one that is not connected.',
    ],
    [
      { pins: SMALL.replace('/CS', 'VPP') },
      /^U1: its sheet has a pin VPP\. Use A0, A1 …, D0 … D7, .*GND, VCC and NC\.$/ as unknown as string,
    ],
    [{ enable: 200e-9 }, 'U1: its outputs need 200 ns from /OE, but only 150 ns from the address. Access time is the longer one.'],
    [{ pulse: 1e-6, longest: 100e-9 }, 'U1: its write pulse is 1 µs at least and 100 ns at most. Exchange the two, or set the most to 0.'],
    [{ setup: 500e-9 }, 'U1: its data must be there 500 ns before the end of a write pulse of 100 ns. Set-up is the shorter one.'],
    [{ low: 2.2 }, 'U1: its inputs are low up to 2.2 V and high from 2 V. The low level is the lower one.'],
    [{ outputLow: 1 }, 'U1: its outputs are low up to 1 V, which its own inputs do not take for low (0.8 V). Check both levels.'],
    [{ resting: 50e-3 }, 'U1: it draws 50 mA in standby and 30 mA when active. Standby is the smaller one.'],
  ])('%j', (params, says) => {
    const failure = refusal(params);
    expect(failure?.code).toBe('plan/parameters-contradict');
    expect(failure?.says).toEqual(typeof says === 'string' ? says : expect.stringMatching(says));
  });
  test('as it comes it does not, and neither do a small RAM and a ROM', () => {
    expect(refusal({})).toBeUndefined();
    expect(refusal({ kind: 'SRAM', organisation: '16 × 4', pins: SMALL.replace('NC', '/WE') })).toBeUndefined();
    expect(refusal({ kind: 'ROM', pins: ROM_PINS })).toBeUndefined();
  });
  test('is refused where the bench is built, with the part’s name', () => {
    const bench = `board-63 B1\n${KIND} U1 EEPROM at e20 with organisation "4K x 8"`;
    expect(() => start(bench)).toThrow('U1: its organisation has 4096 words');
  });
});

/** A ROM of sixteen words of four bits in a package of sixteen pins, its address on four switches. */
const romBench = (access: string) => `
  board-63 B1
  bench-supply PS1
  switch PS1 set 1
  wire WP red from PS1.+ to +j1
  wire WN black from PS1.- to -j1
  wire WM black from -j2 to -a1
  ${KIND} U1 ROM at e20 with organisation "16 x 4", pins "${SMALL}", access ${access}, select 50n, enable 20n
  memory U1 0 0102030405060708090A0B0C0D0E0F00
  wire WG from a27 to -a2
  wire WV from j20 to +j3
  wire WC from a24 to -a3
  wire WO from j21 to -j4
  dip-switch S1 at e40 with poles 4
  ${[0, 1, 2, 3].map((i) => `wire WS${i} from j${40 + i} to +j${10 + i}\nwire WA${i} from b${23 - i} to a${40 + i}\nresistor R${i} 10k from b${40 + i} to -a${10 + i}`).join('\n')}`;

describe('the part that it makes', () => {
  test('stands in the package of its pins and reads what it holds', () => {
    const sim = start(romBench('120n'));
    const data = () => {
      const { pins } = sim.readings().chips[0]!;
      // D0 to D3 on pins 6, 7, 9, 10
      return [6, 7, 9, 10].map((n) => Number(pins[n - 1]!.level === 'H')).reduce((sum, bit, i) => sum + bit * 2 ** i, 0);
    };
    expect(data()).toBe(1);
    for (let pole = 0; pole < 4; pole++) {
      sim.act({ do: 'set', part: 'S1', pole, closed: true });
      expect(data()).toBe(2 ** (pole + 1) === 16 ? 0 : 2 ** (pole + 1));
    }
  });
  test('is undefined for its own access time and no longer', () => {
    for (const [access, seconds] of [
      ['120n', 120e-9],
      ['900n', 900e-9],
    ] as const) {
      const sim = start(romBench(access), { bounce: false });
      const level = () => sim.readings().chips[0]!.pins[5]!.level;
      sim.begin({ do: 'set', part: 'S1', pole: 0, closed: true });
      sim.wait(0.9 * seconds);
      expect(level(), access).toBe('X');
      sim.wait(0.2 * seconds);
      expect(level(), access).toBe('L');
    }
  });
  test('keeps its sheet in the text notation and back', () => {
    const plan = planOf(romBench('120n'));
    const written = writeBenchText(plan);
    expect(planOf(written).parts).toEqual(plan.parts);
    expect(plan.parts.find((p) => p.id === 'U1')?.params).toMatchObject({
      kind: 'ROM',
      organisation: '16 x 4',
      pins: SMALL,
      access: 120e-9,
    });
  });
});
