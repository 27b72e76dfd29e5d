/** Small benches, each with one thing about it that a rule has to tell apart from its neighbours: LEDs, supplies, rails and legs. */
import { FED, memoryBench } from '../../sim-core/findings/example-benches.ts';
import type { Action } from '../../sim-core/index.ts';

export interface RuleCase {
  readonly says: string;
  readonly bench: string;
  /** all findings, as `inShort` writes them */
  readonly finds: readonly string[];
  readonly acts?: readonly Action[];
  readonly waits?: number;
  /** only findings of this group */
  readonly of?: string;
}

export const READS = 'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n';
const R330 = 'resistor R1 330 from b10 to +j5\nwire W1 from b14 to -j3';
export const SECOND = (volts: number, plus: string, minus = '-j40') =>
  `bench-supply PS2 ${volts}\nswitch PS2 set 1\nwire X1 from PS2.- to ${minus}\nwire X2 from PS2.+ to ${plus}\n`;
const BUTTON = 'push-button S1 at e40\nresistor R1 330 from';
const LED = `led LED1 from a10 to a14\n`;

export const CASES: readonly RuleCase[] = [
  // LEDs
  { says: 'an LED behind 330 Ω is well', finds: [], bench: `${FED}\n${LED}${R330}` },
  {
    says: 'two LEDs one after the other without a resistor',
    finds: [
      '0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, PS1, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/no-series-resistor LED2 PS1.+ PS1.- | LED2, PS1, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/over-current LED1 | LED1, 126 mA, 30 mA, 100 Ω',
      '0 led/over-current LED2 | LED2, 126 mA, 30 mA, 100 Ω',
    ],
    bench: `${FED}\n${LED}led LED2 from b14 to b20\nwire W1 from b10 to +j3\nwire W2 from c20 to -j3`,
  },
  {
    says: 'an LED behind a closed switch and 39 Ω',
    finds: [
      '0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, 39.1 Ω, PS1, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/over-current LED1 | LED1, 70.4 mA, 30 mA, 100 Ω',
    ],
    bench: `${FED}\n${LED}dip-switch S1 at e30 with poles 1\nswitch S1 set 1\nwire W1 from a30 to +j9\nresistor R1 39 from j30 to b10\nwire W2 from b14 to -j3`,
  },
  {
    says: 'an LED behind an open switch and 39 Ω',
    finds: ['0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, 39.1 Ω, PS1, PS1, 50 Ω, 330 Ω, 10 mA'],
    bench: `${FED}\n${LED}dip-switch S1 at e30 with poles 1\nwire W1 from a30 to +j9\nresistor R1 39 from j30 to b10\nwire W2 from b14 to -j3`,
  },
  { says: 'both legs of an LED in one net', finds: [], bench: `${FED}\n${LED}wire W1 from b10 to b14\nwire W2 from c10 to +j3` },
  {
    says: 'an LED the wrong way round behind 330 Ω',
    finds: ['1 led/reversed LED1 LED1.1 LED1.2 | LED1, LED1, LED1'],
    bench: `${FED}\nled LED1 from a14 to a10\n${R330}`,
  },
  {
    says: 'two LEDs against each other',
    finds: [],
    bench: `${FED}\n${LED}led LED2 from b14 to b10\nresistor R1 330 from c10 to +j5\nwire W1 from c14 to -j3`,
  },
  {
    says: 'a reversed LED behind a right one',
    finds: [],
    bench: `${FED}\n${LED}led LED2 from b20 to b14\nresistor R1 330 from c10 to +j5\nwire W1 from c20 to -j3`,
  },
  {
    says: 'an LED on 24 V behind 330 Ω, 500 mA and a quarter watt',
    finds: ['0 led/over-current LED1 | LED1, 66 mA, 30 mA, 820 Ω', '0 part/over-power R1 | R1, 1.44 W, 250 mW'],
    bench: `${FED.replace('PS1 5', 'PS1 24')}\n${LED}${R330}`,
  },
  {
    says: 'an LED at a memory that gives its current, with no resistor',
    finds: [
      '0 led/no-series-resistor LED1 U1.13 PS1.- | LED1, U1, 13, D3, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 pin/over-current U1.13 LED1 | LED1, 16.1 mA, U1, 13, D3, 10 mA, 330 Ω',
    ],
    bench: memoryBench(`${READS}led LED1 from g23 to g30\nwire WD from f30 to -j20`),
  },
  {
    says: 'an LED at a memory that takes its current, with no resistor',
    finds: [
      '0 led/no-series-resistor LED1 PS1.+ U1.13 | LED1, PS1, U1, 13, D3, 50 Ω, 330 Ω, 10 mA',
      '0 led/over-current LED1 | LED1, 33.4 mA, 30 mA, 100 Ω',
      '0 pin/over-current U1.13 LED1 | LED1, 33.4 mA, U1, 13, D3, 10 mA, 330 Ω',
    ],
    bench: memoryBench(`${READS}led LED1 from g30 to g23\nwire WD from f30 to +j20\nmemory U1 000 00`),
  },
  {
    says: 'two LEDs at one output',
    finds: [
      '0 led/no-series-resistor LED1 U1.13 PS1.- | LED1, U1, 13, D3, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/no-series-resistor LED2 U1.13 PS1.- | LED2, U1, 13, D3, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 pin/over-current U1.13 LED1 LED2 | LED1, LED2, 16.3 mA, U1, 13, D3, 10 mA, 680 Ω',
    ],
    bench: memoryBench(`${READS}led LED1 from g23 to g30\nled LED2 from i23 to i31\nwire WD from f30 to -j20\nwire WE from f31 to -j21`),
  },
  {
    says: 'an LED between two outputs',
    finds: [
      '0 led/no-series-resistor LED1 U1.13 U1.14 | LED1, U1, 13, D3, U1, 14, D4, 50 Ω, 330 Ω, 10 mA',
      '0 pin/over-current U1.13 LED1 | LED1, 14.5 mA, U1, 13, D3, 10 mA, 330 Ω',
      '0 pin/over-current U1.14 LED1 | LED1, 14.5 mA, U1, 14, D4, 10 mA, 330 Ω',
    ],
    bench: memoryBench(`${READS}memory U1 000 08\nled LED1 from g23 to g22`),
  },
  // supplies
  {
    says: 'no supply at all',
    finds: ['3 part/not-connected-yet R1 | R1'],
    bench: 'board-63 B1\nresistor R1 1k from a10 to a15',
  },
  {
    says: 'a supply whose terminals a wire joins',
    finds: ['0 supply/current-limit PS1 WS | PS1, 500 mA, 500 mA, 0 V'],
    bench: `${FED}\nwire WS from +j9 to -j9`,
  },
  {
    says: 'a short through a resistor and an LED',
    finds: ['0 supply/current-limit PS1 R1 R2 | PS1, 500 mA, 500 mA, 0.601 V, 5 V, R1, R2'],
    bench: `${FED}\nresistor R1 2 from a10 to a15\nresistor R2 3 from b10 to b15\nwire W1 from c10 to -j5\nwire W2 from c15 to +j5`,
  },
  {
    says: 'a supply that is off',
    finds: ['0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, PS1, PS1, 50 Ω, 330 Ω, 10 mA'],
    bench: `${FED.replace('switch PS1 set 1', 'switch PS1 set 0')}\n${LED}wire W1 from b10 to +j3\nwire W2 from b14 to -j3`,
  },
  {
    says: 'two supplies, one minus',
    finds: [],
    bench: `${FED}\n${SECOND(9, '+a1')}resistor R1 1k from a20 to +a9\nwire W1 from b20 to -j9`,
  },
  {
    says: 'two supplies with nothing between them',
    finds: [],
    bench: `${FED}\n${SECOND(9, '+a1', '-a1')}resistor R1 1k from a20 to +a9\nwire W1 from b20 to -a9\nresistor R2 1k from j20 to +j9\nwire W2 from i20 to -j9`,
  },
  {
    says: 'two supplies that share a part and no terminal',
    finds: ['1 supply/grounds-not-connected PS2 PS1 PS2.- PS1.- | PS2, PS1, PS2, PS1'],
    bench: `${FED}\n${SECOND(9, '+a1', '-a1')}resistor R1 1k from a20 to +a9\nwire W1 from b20 to -j9`,
  },
  {
    says: 'a switch across the supply',
    finds: ['0 switch/pole-shorts-supply S1 S1.2 S1.3 PS1 | 2, S1, PS1, 500 mA, 500 mA, 10 kΩ'],
    bench: `${FED}\ndip-switch S1 at e10 with poles 2\nwire W1 from a11 to -j5\nwire W2 from j11 to +j5`,
  },
  {
    says: 'a button across the supply the other way round',
    finds: ['0 switch/pole-shorts-supply S1 S1.1 S1.2 PS1 | S1, PS1, 500 mA, 500 mA, 10 kΩ'],
    bench: `${FED}\npush-button S1 at e10\nwire W1 from a10 to +j5\nwire W2 from a12 to -j5`,
  },
  {
    says: 'the same at a supply of 0.1 A',
    finds: ['0 switch/pole-shorts-supply S1 S1.1 S1.2 PS1 | S1, PS1, 100 mA, 100 mA, 10 kΩ'],
    bench: `${FED.replace('PS1 5', 'PS1 5 with amps 0.1')}\npush-button S1 at e10\nwire W1 from a10 to +j5\nwire W2 from a12 to -j5`,
  },
  // rails
  {
    says: 'a rail that nothing feeds',
    finds: ['1 board/rail-not-connected B1 PS1.- LED1 | B1, LED1, PS1'],
    bench: `${FED}\nresistor R1 330 from b10 to +j5\n${LED}wire W1 from b14 to -a3`,
  },
  {
    says: 'a rail that two parts hang on and nothing feeds',
    finds: ['1 board/rail-not-connected B1 PS1.+ R1 R2 | B1, R1, R2, PS1', '1 part/leg-not-connected R2.1 R2 b12 | R2, 1, b12'],
    bench: `${FED}\nresistor R1 330 from b10 to +a5\nresistor R2 330 from b12 to +a7\n${LED}wire W1 from b14 to -j3`,
  },
  {
    says: 'a rail fed through 20 Ω',
    finds: [],
    bench: `${FED}\nresistor R9 20 from -a9 to -j9\nresistor R1 330 from b10 to +j5\n${LED}wire W1 from b14 to -a3`,
  },
  {
    says: 'a rail fed through 100 Ω',
    finds: ['1 board/rail-not-connected B1 PS1.- LED1 R9 | B1, LED1, R9, PS1'],
    bench: `${FED}\nresistor R9 100 from -a9 to -j9\nresistor R1 330 from b10 to +j5\n${LED}wire W1 from b14 to -a3`,
  },
  {
    says: 'the right half of a split rail fed and the left not',
    finds: ['1 board/rail-half-not-connected +j25 +j26 B1 | B1, +j25, +j26'],
    bench: `board-63 B1 split rails\nbench-supply PS1 5\nwire WP red from PS1.+ to +j45\nwire WN black from PS1.- to -j45\nled LED1 from a5 to a9\nresistor R1 330 from b5 to +j4\nwire W1 from b9 to -j46\nswitch PS1 set 1`,
  },
  {
    says: 'the left half of a split rail fed and the right not, its holes beside the cut taken',
    finds: ['1 board/rail-half-not-connected +j27 +j25 B1 | B1, +j27, +j25'],
    bench: `board-63 B1 split rails\nbench-supply PS1 5\nwire WP red from PS1.+ to +j1\nwire WN black from PS1.- to -j1\nled LED1 from a50 to a54\nresistor R1 330 from b50 to +j26\nwire W1 from b54 to -j2\nswitch PS1 set 1`,
  },
  {
    says: 'a split rail both halves of which are fed',
    finds: [],
    bench: `board-63 B1 split rails\nbench-supply PS1 5\nwire WP red from PS1.+ to +j1\nwire WN black from PS1.- to -j1\nwire WJ from +j3 to +j40\nled LED1 from a50 to a54\nresistor R1 330 from b50 to +j45\nwire W1 from b54 to -j2\nswitch PS1 set 1`,
  },
  // legs
  {
    says: 'a resistor with both legs in one row',
    finds: ['1 part/both-legs-in-one-row R1 R1.1 R1.2 | R1'],
    bench: `${FED}\nresistor R1 1k from a10 to c10`,
  },
  {
    says: 'a leg that is alone, with a wire that leads nowhere',
    finds: ['1 part/leg-not-connected R1.1 R1 W2 b10 | R1, 1, b10, W2'],
    bench: `${FED}\nresistor R1 330 from b10 to +j5\nwire W2 from a10 to a20`,
  },
  {
    says: 'a leg in a rail alone',
    finds: ['1 board/rail-not-connected B1 PS1.+ R1 | B1, R1, PS1'],
    bench: `${FED}\nresistor R1 330 from a10 to +a5\nwire W1 from b10 to -j5`,
  },
  {
    says: 'a button wired on one side',
    finds: ['1 switch/one-side-only S1 S1.1 S1.4 S1.2 | S1, 1, 4, 2'],
    bench: `${FED}\n${BUTTON} b40 to +j9\nwire W1 from j40 to -j9`,
  },
  {
    says: 'a button wired on the other side',
    finds: ['1 switch/one-side-only S1 S1.2 S1.3 S1.1 | S1, 2, 3, 1'],
    bench: `${FED}\n${BUTTON} j42 to +j9\nwire W1 from a42 to -j9`,
  },
  { says: 'a button wired across', finds: [], bench: `${FED}\n${BUTTON} b40 to +j9\nwire W1 from j42 to -j9` },
];
