/** What a finger does to a button on a copy of the bench: a press that writes nothing, a level instead of a pulse, bounce that clocks a chip; and networks beside them that are right. */
import { describe, expect, test } from 'vitest';
import { counterClocked, DATA_5A, FED, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import { dryRun, plain, sayFinding } from '../../sim-core/index.ts';
import { planOf } from '../support/bench.ts';

function said(bench: string, ...codes: readonly string[]): string[] {
  const plan = planOf(bench);
  const found = dryRun(plan);
  if (!found.ok) throw new Error(found.failure.says);
  return found.value.flatMap((f) => (codes.includes(f.code) ? [plain(sayFinding(f, plan))] : []));
}

describe('a button that writes', () => {
  const OF_PRESS = ['memory/press-writes-nothing', 'memory/write-pulse-long', 'memory/level-no-pulse', 'memory/write-pulse-short'];
  const bench = (network: string) => memoryBench(DATA_5A + network);
  const right = writeButton('1.5n');

  test('is not spoken of where each press makes its pulse', () => {
    expect(said(bench(right), ...OF_PRESS)).toEqual([]);
  });

  test('writes nothing once its capacitor is charged and nothing discharges it', () => {
    expect(said(bench(right.replace(/resistor RC.*/, '')), ...OF_PRESS)).toEqual([
      'Pressing push button S9 writes nothing: nothing discharges ceramic capacitor CW, which keeps 4.99 V, so U1 pin 21 (/WE) does not fall to a low level (up to 0.8 V). Put a resistor across ceramic capacitor CW.',
    ]);
  });

  test.each([
    ['its wire to the strobe is one row off', right.replace('wire WW from j15 to j40', 'wire WW from j15 to j41')],
    ['its wire to the strobe ends beside the memory', right.replace('wire WW from j15', 'wire WW from j31')],
    ['its capacitor is one row off', right.replace('capacitor CW 1.5n from j42', 'capacitor CW 1.5n from j43')],
  ])('writes nothing where %s', (_, network) => {
    const [only, ...more] = said(bench(network), ...OF_PRESS);
    expect(more).toEqual([]);
    expect(only).toMatch(
      /^Pressing push button S9 writes nothing: U1 pin 21 \(\/WE\) stays at (4\.9\d|5) V \(low is up to 0\.8 V\)\. Check the wires from the button, and its capacitor, to the pin\.$/,
    );
  });

  test('writes nothing where the memory is not selected, and says which pin keeps it so', () => {
    expect(said(memoryBench(`${DATA_5A}${right}\nwire WCE from j18 to +j4`, 'WCE'), ...OF_PRESS)).toEqual([
      'Pressing push button S9 writes nothing: memory U1 is not selected, its pin 18 (/CE) is at 5 V (low is up to 0.8 V). Wire it to −.',
    ]);
  });

  test('makes a level and no pulse where no capacitor ends it: as long as the finger stays', () => {
    const [only, ...more] = said(bench(right.replace('capacitor CW 1.5n', 'wire CW')), ...OF_PRESS);
    expect(more).toEqual([]);
    expect(only).toMatch(
      /^Memory U1 gets a level instead of a write pulse: its write enable was low for 10\d ms, as long as the button was held/,
    );
  });

  test('is not missed on a bench that is only read', () => {
    expect(said(memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\npush-button S9 at e40'), ...OF_PRESS)).toEqual([]);
  });
});

describe('a button on a clock', () => {
  const counter = (clock: string) => counterClocked(`resistor RB 10k from i52 to -j45\n${clock}`);
  /** what it takes at an edge does not depend on how many there were */
  const register = (d0: string) => `${FED}
    octal-register U1 at e20
    capacitor C1 100n from i20 to i17
    wire WD from j17 to -j26
    wire WV from j20 to +j20
    wire WG from a29 to -j28
    wire WO from a20 to -j29
    ${['a23', 'a24', 'a27', 'a28', 'j22', 'j23', 'j26', 'j27'].map((hole, i) => `wire W${i} from ${hole} to -j${2 + i}`).join('\n')}
    ${d0}
    push-button S9 at e50
    wire WS from a50 to +j40
    resistor RB 10k from i52 to -j45
    wire WC from j52 to j29`;

  test('counts several times for one press', () => {
    const [only, ...more] = said(counter('wire WC from j52 to a21'), 'switch/bounces-on-clock');
    expect(more).toEqual([]);
    expect(only).toMatch(
      /^One press of push button S9 moves U1 pin 2 \(CP\) [2-9] times \(should be once\), and 4-bit counter U1 takes each: its contact bounces for up to 6\.2 ms\. Debounce it: /,
    );
  });

  test('is not spoken of behind a debouncer, or where the chip takes the same again', () => {
    const debounced = `wire WC from a41 to a21
      resistor RF 220k from j52 to j56
      capacitor CF 100n from i56 to -j46
      schmitt-inverter U2 at e40
      wire WI from h56 to a40
      wire WJ from j40 to +j42
      wire WK from a46 to -j43`;
    expect(said(counter(debounced), 'switch/bounces-on-clock')).toEqual([]);
    expect(said(register('wire D0 from a22 to +j10'), 'switch/bounces-on-clock')).toEqual([]);
  });
});
