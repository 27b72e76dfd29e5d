/** Which margins of a bench are asked for at all: levels that something holds, LEDs that are lit, outputs that carry something; and their limits. */
import { describe, expect, test } from 'vitest';
import { addressSwitch, DATA_5A, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import { type Margin, marginsOf } from '../../sim-core/index.ts';
import { planOf } from '../support/bench.ts';

const margins = (bench: string): readonly Margin[] => {
  const found = marginsOf(planOf(bench), 'worst');
  if (!found.ok) throw new Error(found.failure.says);
  return found.value;
};
const short = (list: readonly Margin[]) => list.map((m) => `${m.what} ${m.at.id} ${m.must} ${Number(m.limit.toPrecision(4))}`);
const of = (bench: string, what: string) => short(margins(bench)).filter((m) => m.startsWith(what));

const READS = 'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n';
const held = (resistor: string) => memoryBench(READS + resistor, 'WA3');
const lit = (ohms: string, image = '08') =>
  memoryBench(`${READS}memory U1 000 ${image}\nled LED1 from g23 to g30\nresistor R1 ${ohms} from f30 to -j20`);

describe('a level is asked for', { timeout: 30_000 }, () => {
  test('where a resistor of 20 Ω or more holds an input, low or high; what metal holds nothing can move', () => {
    expect(of(held('resistor R3 22 from a16 to -a20'), 'level')).toEqual(['level-low U1.5 at-most 0.8']);
    expect(of(held('resistor R3 18 from a16 to -a20'), 'level')).toEqual([]);
    expect(of(held('resistor R3 10k from a16 to +a20\nwire WR from +a21 to +j21'), 'level')).toEqual(['level-high U1.5 at-least 2']);
  });

  test('not where an input floats, and not between its levels', () => {
    expect(of(held(''), 'level')).toEqual([]);
    expect(of(held('resistor R3 1k from a16 to -a20\nresistor R4 2k7 from b16 to +j20'), 'level')).toEqual([]);
  });

  test('of data pins only while the memory waits to be written', () => {
    const data = 'resistor RD 10k from a20 to -a14\n';
    expect(of(memoryBench(`wire WOE from j16 to +j9\nwire WWE from j15 to +j10\n${data}`), 'level')).toEqual([
      'level-low U1.9 at-most 0.8',
    ]);
    expect(of(memoryBench(`${READS}${data}`), 'level')).toEqual([]);
  });

  test('with the leakage of every pin on its net: 10 µA each through 10 kΩ', () => {
    const [one] = margins(held('resistor R3 10k from a16 to -a20 with tolerance 0')).filter((m) => m.what === 'level-low');
    expect(one?.worst).toBeCloseTo(0.1, 4);
    const [two] = margins(
      memoryBench(`${READS}resistor R3 10k from a16 to -a20 with tolerance 0\nwire WJ from b16 to b17`, 'WA3', 'WA2'),
    ).filter((m) => m.what === 'level-low');
    expect(two?.worst).toBeCloseTo(0.2, 4);
    const [up] = margins(
      held('resistor R3 10k from a16 to +a20 with tolerance 0\nwire WR from +a21 to +j21').replace('PS1 5', 'PS1 5 with tolerance 0'),
    ).filter((m) => m.what === 'level-high');
    expect(up?.worst).toBeCloseTo(4.9, 2);
  });
});

describe('a current is asked for', { timeout: 30_000 }, () => {
  test('of an LED that is lit: at least what looks lit, at most what it bears', () => {
    expect(of(lit('1k'), 'led')).toEqual(['led-lit LED1 at-least 0.001', 'led-current LED1 at-most 0.03']);
    expect(of(lit('1k', '00'), 'led')).toEqual([]);
    expect(of(lit('4k7'), 'led')).toEqual([]);
  });

  test('of an output from a tenth of its limit on', () => {
    // 1.9 V of the LED, some 0.1 V of the output: 3 V over the resistor
    expect(of(lit('2k2'), 'pin-current')).toEqual(['pin-current U1.13 at-most 0.01']);
    expect(of(lit('3k9'), 'pin-current')).toEqual([]);
  });

  test('of the supply pin for what outputs give, of the ground pin for what they take', () => {
    expect(of(lit('330'), 'package')).toEqual(['package-current U1.24 at-most 0.06']);
    const sinks = memoryBench(`${READS}memory U1 000 00\nled LED1 from g30 to g23\nresistor R1 330 from f30 to +j20`);
    expect(of(sinks, 'package')).toEqual(['package-current U1.12 at-most 0.06']);
    expect(of(lit('1k'), 'package')).toEqual([]);
  });
});

test('margins come in order of what they are about, then of parts and pins', { timeout: 30_000 }, () => {
  const bench = memoryBench(
    `${DATA_5A}${writeButton()}${addressSwitch('0', '10k')}\nresistor R3 10k from a16 to -a40\nresistor R4 10k from a17 to -a41`,
    'WA0',
    'WA3',
    'WA2',
  );
  expect(short(margins(bench))).toEqual([
    'pulse-width-guaranteed U1 at-least 1e-7',
    'pulse-width-maximum U1 at-most 0.000001',
    'level-low U1.5 at-most 0.8',
    'level-low U1.6 at-most 0.8',
    'level-low U1.8 at-most 0.8',
    'level-high U1.21 at-least 2',
  ]);
});
