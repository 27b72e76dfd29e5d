/** Findings stay calm: nothing of a part before it is wired, what is alike is one finding, causes before what they lead to. */
import { describe, expect, test } from 'vitest';
import { FED, memoryBench } from '../../sim-core/findings/example-benches.ts';
import { apply, findingsNow, fixesFor, fixText, groupAlike, plain, sayFinding } from '../../sim-core/index.ts';
import { start } from '../support/bench.ts';

const READS = 'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n';
function heard(bench: string) {
  const sim = start(bench, { still: true });
  const { circuit } = sim;
  const found = groupAlike(findingsNow(sim));
  return { circuit, found, said: found.map((f) => `${f.severity}: ${plain(sayFinding(f, circuit.plan))}`) };
}
const said = (bench: string) => heard(bench).said;

describe('before a part is wired', () => {
  const loose = 'eeprom-2kx8 U1 at d12\nled LED1 from a40 to a44\nresistor R1 330 from a50 to a54\ndip-switch S1 at e55 with poles 2';

  test('no more is said than that it is not connected yet; while the supply is off it is no fault', () => {
    expect(said(`${FED}\n${loose}`)).toEqual([
      'fault: LED1, resistor R1, DIP switch S1 and memory U1 are not connected yet: nothing else is in the rows of their legs. Wire them, or remove them.',
    ]);
    expect(said(`${FED.replace('switch PS1 set 1', '')}\n${loose}`)).toEqual([
      'suggestion: LED1, resistor R1, DIP switch S1 and memory U1 are not connected yet.',
    ]);
  });

  test('many are counted', () => {
    const many = Array.from({ length: 9 }, (_, i) => `resistor R${i} 330 from a${5 * i + 5} to a${5 * i + 8}`).join('\n');
    expect(said(`${FED}\n${many}`)[0]).toContain('resistor R4 and 4 more parts are not connected yet');
  });

  test('with its first wire it is spoken of', () => {
    expect(said(`${FED}\n${loose}\nwire W1 from j12 to +j5`).join()).toContain(
      'Memory U1 has no supply: its pin 12 (GND) is not connected',
    );
  });

  test('both legs in one row are a mistake at once', () => {
    expect(said(`${FED}\nresistor R1 330 from a10 to c10`)).toEqual([
      'fault: Resistor R1 has both legs in one row: the board shorts it. Move one leg to another row.',
    ]);
  });
});

describe('what is alike', () => {
  const open = ['WA0', 'WA1', 'WA2', 'WA3', 'WA4', 'WA5', 'WA6'];

  test('seven open address pins of one chip are one finding with a list', () => {
    expect(said(memoryBench(READS, ...open))).toEqual([
      'fault: U1 pin 2 (A6) floats: not connected. Leakage of up to 10 µA can carry it past 0.8 V (limit 80 kΩ). Pull it up or down with 10 kΩ: leakage then moves it by 0.1 V at most. The same at U1 pin 3 (A5), U1 pin 4 (A4), U1 pin 5 (A3), U1 pin 6 (A2), U1 pin 7 (A1) and U1 pin 8 (A0).',
    ]);
  });

  test('is repaired in one act, at every place', () => {
    const { circuit, found } = heard(memoryBench(READS, ...open));
    const [fix] = fixesFor(found[0]!, circuit);
    expect(fix && fixText(fix, circuit.plan)).toBe('Pull U1 pin 2 (A6) down with 10 kΩ, and the same at 6 more');
    const after = start(apply(circuit.plan, fix!.change), { still: true });
    expect(findingsNow(after).filter((f) => f.code === 'input/floating')).toEqual([]);
  });

  test('marks every place', () => {
    expect(heard(memoryBench(READS, ...open)).found[0]?.at.map((r) => r.id)).toEqual([
      'U1.2',
      'U1.3',
      'U1.4',
      'U1.5',
      'U1.6',
      'U1.7',
      'U1.8',
    ]);
  });

  test('other figures are another finding', () => {
    const leds = (ohms: readonly number[]) =>
      ohms
        .map(
          (r, i) =>
            `led LED${i} from a${10 + 8 * i} to a${14 + 8 * i}\nresistor R${i} ${r} from b${10 + 8 * i} to +j${10 + i}\nwire W${i} from b${14 + 8 * i} to -j${10 + i}`,
        )
        .join('\n');
    const codes = (ohms: readonly number[]) => heard(`${FED}\n${leds(ohms)}`).found.filter((f) => f.code === 'led/over-current').length;
    expect(codes([47, 47])).toBe(1);
    expect(codes([47, 68])).toBe(2);
  });
});

describe('a cause', () => {
  const LED = 'led LED1 from g23 to g30\nresistor R1 330 from f30 to -j20';

  test('a missing VCC wire ranks before the current that it causes, and is as bad', () => {
    const [first, second] = said(memoryBench(READS + LED, 'WV'));
    expect(first).toMatch(/^damage-risk: Memory U1 has no supply: its pin 24 \(VCC\) is not connected/);
    expect(second).toMatch(/^damage-risk: U1 pin 21 \(\/WE\) is at 5 V, above the chip’s supply/);
  });

  test('that leads to nothing worse stays what it is', () => {
    const [first] = said(memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to -j8', 'WV'));
    expect(first).toMatch(/^fault: Memory U1 has no supply/);
  });
});
