/** What is tied or joined so that hands and bytes change nothing: enables at the wrong rail, a write enable that is low, switches whose two sides are one net; and benches beside them. */
import { describe, expect, test } from 'vitest';
import { addressSwitch, FED, memoryBench } from '../../sim-core/findings/example-benches.ts';
import { findingsNow, plain, sayFinding } from '../../sim-core/index.ts';
import { logicChip, start } from '../support/bench.ts';

const CODES = ['chip/enable-wrong-rail', 'memory/write-enable-low', 'switch/both-sides-one-net'];
const said = (bench: string): string[] => {
  const sim = start(bench, { still: true });
  return findingsNow(sim).flatMap((f) => (CODES.includes(f.code) ? [plain(sayFinding(f, sim.circuit.plan))] : []));
};

const WE_HIGH = 'wire WWE from j15 to +j9\n';
const LED = 'led LED1 from g23 to g30\nresistor R1 330 from f30 to -j20\n';

describe('an enable', () => {
  const buffer = (first: string, second = '-j32') => `${logicChip('octal-buffer')}
    wire E1 from a40 to ${first}
    wire E2 from j41 to ${second}
    ${['a41', 'a43', 'a45', 'a47'].map((h, i) => `wire I${i} from ${h} to -a${30 + i}`).join('\n')}
    ${['j43', 'j45', 'j47', 'j49'].map((h, i) => `wire J${i} from ${h} to -j${40 + i}`).join('\n')}
    led LED1 from i42 to i55
    resistor R1 330 from j55 to -j50`;

  test('of a buffer half at plus keeps its LED dark', () => {
    expect(said(buffer('+j33'))).toEqual([
      'U2 pin 1 (/1G) is tied high: 5 V (low is up to 1.5 V), so its pin 18 (1Y1) is high-impedance (Z) whatever the switches. Wire it to −.',
    ]);
  });

  test('at the right rail, or of a half that nothing uses, is not spoken of', () => {
    expect(said(buffer('-j33'))).toEqual([]);
    expect(said(buffer('-j33', '+j34'))).toEqual([]);
  });

  const decoder = (enable: string) => `${FED}
    decoder-3-to-8 U2 at e40
    wire V from j40 to +j40
    wire G from a47 to -j47
    wire EA from a43 to ${enable}
    wire EB from a44 to -j44
    wire EC from a45 to +j45
    dip-switch S1 at e4 with poles 1
    wire S from j4 to +j4
    wire A from a4 to a40
    resistor RA 10k from b4 to -j6
    wire B from a41 to -j41
    wire C from a42 to -j42
    led LED1 from i55 to i41
    resistor R1 680 from j55 to +j50
    led LED2 from g57 to g42
    resistor R2 680 from h57 to +j49`;

  test('of a decoder at the wrong rail keeps every output at one level; its selects may be tied', () => {
    expect(said(decoder('+j43'))).toEqual([
      'U2 pin 4 (/G2A) is tied high: 5 V (low is up to 1.5 V), so its pin 15 (/Y0) and its pin 14 (/Y1) stay at one level whatever the switches. Wire it to −.',
    ]);
    expect(said(decoder('-j43'))).toEqual([]);
  });

  test('of a memory that a switch or a pull-up with a switch sets is left to the switch', () => {
    const switched = `${addressSwitch('1', '10k').replace('a19', 'i16')}\n${WE_HIGH}${LED}`;
    expect(said(memoryBench(switched))).toEqual([]);
    expect(said(memoryBench(`resistor RP 10k from j16 to +j11\n${WE_HIGH}${LED}`))).toEqual([
      'U1 pin 20 (/OE) is tied high: 5 V (low is up to 0.8 V), so its pin 13 (D3) is high-impedance (Z) whatever the switches. Wire it to −.',
    ]);
  });

  test('is not spoken of while the supply is off, or where nothing uses the outputs', () => {
    const bench = memoryBench(`wire WOE from j16 to +j11\n${WE_HIGH}${LED}`);
    expect(said(bench)).toHaveLength(1);
    expect(said(bench.replace('switch PS1 set 1', ''))).toEqual([]);
    expect(said(memoryBench(`wire WOE from j16 to +j11\n${WE_HIGH}`))).toEqual([]);
  });
});

describe('a write enable', () => {
  test.each(['wire WWE from j15 to -j8', 'resistor RW 10k from j15 to -j8'])('low by %s is told', (line) => {
    expect(said(memoryBench(`wire WOE from j16 to -j11\n${line}\n${LED}`)).join()).toContain('U1 pin 21 (/WE) is tied low');
  });

  test.each([
    'wire WWE from j15 to +j8',
    'resistor RW 680 from j15 to +j8\npush-button S9 at e40\nwire WB from i15 to j40\nwire WC from j42 to -j22',
  ])('high, or pulled low only by a button, is not: %s', (line) => {
    expect(said(memoryBench(`wire WOE from j16 to -j11\n${line}\n${LED}`))).toEqual([]);
  });
});

describe('a switch whose two sides are one net', () => {
  const bench = (more: string) => `${FED}
    dip-switch S1 at e40 with poles 3
    push-button S2 at e50
    ${more}`;

  test('is told with the wire that joins them, each pole by itself', () => {
    expect(said(bench('wire W1 from a40 to j40\nwire W2 from a41 to +j3\nwire W3 from j41 to +j4\nwire W4 from a42 to a20'))).toEqual([
      'Pole 1 of DIP switch S1 switches nothing: wire W1 joins its two sides (0 Ω while it is open; an open contact has at least 100 MΩ). Remove wire W1, or move one end.',
      'Pole 2 of DIP switch S1 switches nothing: wire W2 and wire W3 join its two sides (0 Ω while it is open; an open contact has at least 100 MΩ). Remove wire W2 or wire W3, or move one end.',
    ]);
  });

  test('of a button across its corners', () => {
    expect(said(bench('wire W1 from a50 to j52'))).toEqual([
      'Push button S2 switches nothing: wire W1 joins its two sides (100 mΩ while it is open; an open contact has at least 100 MΩ). Remove wire W1, or move one end.',
    ]);
  });

  test('is not a switch between two rows, through a resistor, or with both legs in one row', () => {
    expect(said(bench('wire W1 from a40 to a20\nresistor R1 1k from b40 to i40'))).toEqual([]);
    expect(said(`${FED}\nresistor R1 330 from a10 to c10`)).toEqual([]);
  });
});
