/** Where each rule begins to speak: one value of a bench is moved until the finding comes, and what is measured there is the limit of the data sheet. */
import { describe, expect, test } from 'vitest';
import { DATA_5A, FED, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import { type Action, dryRun, findingsNow, type Simulation } from '../../sim-core/index.ts';
import { planOf, start } from '../support/bench.ts';

const told = (sim: Simulation, code: string) => findingsNow(sim).filter((f) => f.code === code);

/** The value between a silent and a loud one at which it begins to speak, to 0.1 %. */
function edge(silent: number, loud: number, speaks: (value: number) => boolean): number {
  expect([speaks(silent), speaks(loud)]).toEqual([false, true]);
  let [quiet, heard] = [silent, loud];
  while (Math.abs(heard / quiet - 1) > 1e-3) {
    const middle = Math.sqrt(quiet * heard);
    if (speaks(middle)) heard = middle;
    else quiet = middle;
  }
  return heard;
}

const READS = 'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n';
const led = (ohms: number, volts = 5, kind = '') =>
  `${FED.replace('PS1 5', `PS1 ${volts} with ohms 0.001`)}\nled LED1 ${kind} from a10 to a14\nresistor R1 ${ohms} from b10 to b5\nwire W1 from c5 to +j3\nwire W2 from b14 to -j3`;
const ampsOf = (text: string) => start(text).readings().leds[0]!.amps;
/** eight LEDs on the data pins, through so many ohms each, lit by a 1 */
const eight = (ohms: number) =>
  ['a20', 'a21', 'a22', 'j23', 'j22', 'j21', 'j20', 'j19']
    .map((hole, i) => {
      const [half, row] = [hole[0] === 'a' ? 'b' : 'i', 30 + 3 * i];
      return `led LED${i} from ${half}${hole.slice(1)} to ${half}${row}\nresistor R${i} ${ohms} from ${hole[0]}${row} to -${hole[0]}${20 + i}`;
    })
    .join('\n');

interface Limit {
  readonly code: string;
  readonly says: string;
  /** values at which it is silent, and speaks */
  readonly from: number;
  readonly to: number;
  bench(value: number): string;
  readonly acts?: readonly Action[];
  /** what the limit is a limit of, at this value */
  measured(value: number): number;
  /** with its source */
  readonly limit: number;
}

const PRESS: readonly Action[] = [{ do: 'press', part: 'S9' }];

const LIMITS: readonly Limit[] = [
  {
    code: 'led/over-current',
    says: 'a red LED bears 30 mA (S40)',
    from: 150,
    to: 68,
    bench: led,
    measured: (v) => ampsOf(led(v)),
    limit: 30e-3,
  },
  {
    code: 'led/over-current',
    says: 'a green one 25 mA (S40)',
    from: 150,
    to: 68,
    bench: (v) => led(v, 5, 'green'),
    measured: (v) => ampsOf(led(v, 5, 'green')),
    limit: 25e-3,
  },
  {
    code: 'led/dim',
    says: 'it looks lit from 1 mA (our choice between S42 and S45)',
    from: 1e3,
    to: 20e3,
    bench: led,
    measured: (v) => ampsOf(led(v)),
    limit: 1e-3,
  },
  {
    code: 'led/reverse-over-voltage',
    says: 'and 5 V the wrong way round (S40)',
    from: 4,
    to: 9,
    bench: (v) => led(1e3, v).replace('a10 to a14', 'a14 to a10'),
    measured: (v) => v,
    limit: 5,
  },
  {
    code: 'capacitor/over-voltage',
    says: 'an electrolytic bears what is printed on it',
    from: 9,
    to: 12,
    bench: (v) =>
      `${FED.replace('PS1 5', `PS1 ${v}`)}\nelectrolytic C1 from a10 to a14 with volts 10\nwire W1 from c10 to +j3\nwire W2 from b14 to -j3`,
    measured: (v) => v,
    limit: 10,
  },
  {
    code: 'capacitor/reversed',
    says: 'and 1 V the wrong way round (from memory)',
    from: 0.5,
    to: 3,
    bench: (v) => `${FED.replace('PS1 5', `PS1 ${v}`)}\nelectrolytic C1 from a14 to a10\nwire W1 from c10 to +j3\nwire W2 from b14 to -j3`,
    measured: (v) => v,
    limit: 1,
  },
  {
    code: 'part/over-power',
    says: 'a quarter of a watt: U²/R',
    from: 120,
    to: 47,
    bench: (v) =>
      `${FED.replace('PS1 5', 'PS1 5 with ohms 0.001')}\nresistor R1 ${v} from a10 to a15\nwire W1 from b10 to -j5\nwire W2 from b15 to +j5`,
    measured: (v) => 25 / v,
    limit: 0.25,
  },
  {
    code: 'supply/current-limit',
    says: 'a supply gives its 1 A',
    from: 10,
    to: 1,
    bench: (v) =>
      `${FED.replace('PS1 5', 'PS1 5 with ohms 0.001, amps 1')}\nresistor R1 ${v} from a10 to a15\nwire W1 from b10 to -j5\nwire W2 from b15 to +j5`,
    measured: (v) => 5 / v,
    limit: 1,
  },
  {
    code: 'led/no-series-resistor',
    says: 'less than 50 Ω hold nothing (our choice)',
    from: 70,
    to: 20,
    bench: led,
    measured: (v) => v,
    limit: 50,
  },
  {
    code: 'pin/over-current',
    says: 'an output gives 10 mA for long (common practice)',
    from: 1e3,
    to: 47,
    bench: (v) => memoryBench(`${READS}led LED1 from g23 to g30\nresistor R1 ${v} from f30 to -j20`),
    measured: (v) => ampsOf(memoryBench(`${READS}led LED1 from g23 to g30\nresistor R1 ${v} from f30 to -j20`)),
    limit: 10e-3,
  },
  {
    code: 'chip/package-over-current',
    says: 'eight of them 60 mA together (from memory)',
    from: 1e3,
    to: 100,
    bench: (v) => memoryBench(READS + eight(v)),
    measured: (v) =>
      start(memoryBench(READS + eight(v)))
        .readings()
        .leds.reduce((sum, l) => sum + l.amps, 0),
    limit: 60e-3,
  },
  {
    code: 'chip/supply-out-of-range',
    says: 'a memory works from 4.5 V (S2)',
    from: 5,
    to: 4,
    bench: (v) => memoryBench('').replace('PS1 5', `PS1 ${v}`),
    measured: (v) => v,
    limit: 4.5,
  },
  {
    code: 'chip/supply-out-of-range',
    says: 'and to 5.5 V (S2)',
    from: 5,
    to: 6,
    bench: (v) => memoryBench('').replace('PS1 5', `PS1 ${v}`),
    measured: (v) => v,
    limit: 5.5,
  },
  {
    code: 'chip/no-decoupling',
    says: 'less than 10 nF do not decouple (our choice)',
    from: 100e-9,
    to: 1e-9,
    bench: (v) => memoryBench('').replace('C9 100n', `C9 ${v}`),
    measured: (v) => v,
    limit: 10e-9,
  },
  {
    code: 'input/between-levels',
    says: 'surely low to 0.8 V (S2)',
    from: 10e3,
    to: 3e3,
    bench: (v) => memoryBench(`resistor R3 1k from a16 to -a20\nresistor R4 ${v} from b16 to +j20`, 'WA3'),
    measured: (v) => 5e3 / (1e3 + v),
    limit: 0.8,
  },
  {
    code: 'input/between-levels',
    says: 'surely high from 2.0 V (S2)',
    from: 1e3,
    to: 2e3,
    bench: (v) => memoryBench(`resistor R3 1k from a16 to -a20\nresistor R4 ${v} from b16 to +j20`, 'WA3'),
    measured: (v) => 5e3 / (1e3 + v),
    limit: 2,
  },
  {
    code: 'input/floating',
    says: '10 µA of leakage (S2) carry an input out of its 0.8 V',
    from: 10e3,
    to: 200e3,
    bench: (v) => memoryBench(`${READS}resistor R3 ${v} from a16 to -a20`, 'WA3'),
    measured: (v) => v * 10e-6,
    limit: 0.8,
  },
  {
    code: 'pin/over-voltage',
    says: 'A9 bears 13.5 V (S2)',
    from: 12,
    to: 20,
    bench: (v) => memoryBench(`bench-supply PS2 ${v}\nswitch PS2 set 1\nwire X1 from PS2.- to -j40\nwire X2 from PS2.+ to j14`, 'WA9'),
    measured: (v) => v,
    limit: 13.5,
  },
  {
    code: 'memory/write-pulse-short',
    says: 'a write pulse is surely low for 100 ns at least (S2)',
    from: 2e-9,
    to: 300e-12,
    bench: (v) => memoryBench(DATA_5A + writeButton(String(v))),
    acts: PRESS,
    measured: (v) => pulse(v).guaranteedLow,
    limit: 100e-9,
  },
  {
    code: 'memory/write-pulse-long',
    says: 'and 1 µs at most (S2)',
    from: 1e-9,
    to: 10e-9,
    bench: (v) => memoryBench(DATA_5A + writeButton(String(v))),
    acts: PRESS,
    measured: (v) => pulse(v).maximumLow,
    limit: 1e-6,
  },
];

const pulse = (farads: number) => {
  const sim = start(memoryBench(DATA_5A + writeButton(String(farads))), { bounce: false });
  sim.act(PRESS[0]!);
  return sim.events[0]!;
};

const played = ({ bench, acts = [] }: Limit, value: number): Simulation => {
  const sim = start(bench(value), { bounce: false });
  for (const a of acts) sim.act(a);
  return sim;
};

describe('begins to speak where its limit is', () => {
  test.each(LIMITS.map((l) => [l.code, l.says, l] as const))('%s: %s', (code, _, l) => {
    const at = edge(l.from, l.to, (v) => told(played(l, v), code).length > 0);
    expect(l.measured(at) / l.limit).toBeCloseTo(1, 2);
  });
});

describe('an input between its levels', () => {
  const at = (ohms: number) => memoryBench(`resistor R3 1k from a16 to -a20\nresistor R4 ${ohms} from b16 to +j20`, 'WA3');
  test('is measured against the nearer of the two', () => {
    // 1.0 V, 1.35 V and 1.43 V: half way is at 1.4 V
    const limits = [4e3, 2.7e3, 2.5e3].map((ohms) => told(start(at(ohms)), 'input/between-levels')[0]?.data);
    expect(limits).toMatchObject([{ limit: 0.8 }, { limit: 0.8 }, { limit: 2 }]);
  });
  test('shows its worst where a switch moves it: the setting that is further from both', () => {
    const bench = `${at(4e3)}\ndip-switch S1 at e45 with poles 1\nwire WS1 from a45 to c16\nresistor R5 7k from j45 to +j25`;
    const found = dryRun(planOf(bench));
    if (!found.ok) throw new Error(found.failure.says);
    const [worst] = found.value.filter((f) => f.code === 'input/between-levels');
    // 4 kΩ and 7 kΩ together: 2545 Ω, 1.41 V
    expect(worst).toMatchObject({ when: 'S1 at 1', data: { measured: expect.closeTo(1.41, 2) } });
  });
});
