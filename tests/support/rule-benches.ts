/** Small benches, each with one thing about it that a rule has to tell apart from its neighbours. */
import { DATA_5A, FED, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
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

const READS = 'WOE wire j16 -j9\nWWE wire j15 +j9\n';
const SECOND = (volts: number, plus: string, minus = '-j40') =>
  `PS2 bench-supply volts=${volts}\nPS2 hands 1\nX1 wire PS2.- ${minus}\nX2 wire PS2.+ ${plus}\n`;
const press: Action = { do: 'press', part: 'S9' };
const release: Action = { do: 'release', part: 'S9' };
const LED = `LED1 led a10 a14\n`;

export const CASES: readonly RuleCase[] = [
  // LEDs
  { says: 'an LED behind 330 Ω is well', finds: [], bench: `${FED}\n${LED}R1 resistor b10 +j5 ohms=330\nW1 wire b14 -j3` },
  {
    says: 'two LEDs one after the other without a resistor',
    finds: [
      '0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, PS1, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/no-series-resistor LED2 PS1.+ PS1.- | LED2, PS1, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/over-current LED1 | LED1, 126 mA, 30 mA, 100 Ω',
      '0 led/over-current LED2 | LED2, 126 mA, 30 mA, 100 Ω',
    ],
    bench: `${FED}\n${LED}LED2 led b14 b20\nW1 wire b10 +j3\nW2 wire c20 -j3`,
  },
  {
    says: 'an LED behind a closed switch and 39 Ω',
    finds: [
      '0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, 39.1 Ω, PS1, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/over-current LED1 | LED1, 70.4 mA, 30 mA, 100 Ω',
    ],
    bench: `${FED}\n${LED}S1 dip-switch e30 poles=1\nS1 hands 1\nW1 wire a30 +j9\nR1 resistor j30 b10 ohms=39\nW2 wire b14 -j3`,
  },
  {
    says: 'an LED behind an open switch and 39 Ω',
    finds: ['0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, 39.1 Ω, PS1, PS1, 50 Ω, 330 Ω, 10 mA'],
    bench: `${FED}\n${LED}S1 dip-switch e30 poles=1\nW1 wire a30 +j9\nR1 resistor j30 b10 ohms=39\nW2 wire b14 -j3`,
  },
  { says: 'both legs of an LED in one net', finds: [], bench: `${FED}\n${LED}W1 wire b10 b14\nW2 wire c10 +j3` },
  {
    says: 'an LED the wrong way round behind 330 Ω',
    finds: ['1 led/reversed LED1 LED1.1 LED1.2 | LED1, LED1, LED1'],
    bench: `${FED}\nLED1 led a14 a10\nR1 resistor b10 +j5 ohms=330\nW1 wire b14 -j3`,
  },
  {
    says: 'two LEDs against each other',
    finds: [],
    bench: `${FED}\n${LED}LED2 led b14 b10\nR1 resistor c10 +j5 ohms=330\nW1 wire c14 -j3`,
  },
  {
    says: 'a reversed LED behind a right one',
    finds: [],
    bench: `${FED}\n${LED}LED2 led b20 b14\nR1 resistor c10 +j5 ohms=330\nW1 wire c20 -j3`,
  },
  {
    says: 'an LED on 24 V behind 330 Ω, 500 mA and a quarter watt',
    finds: ['0 led/over-current LED1 | LED1, 66 mA, 30 mA, 820 Ω', '0 part/over-power R1 | R1, 1.44 W, 250 mW'],
    bench: `${FED.replace('volts=5', 'volts=24')}\n${LED}R1 resistor b10 +j5 ohms=330\nW1 wire b14 -j3`,
  },
  {
    says: 'an LED at a memory that gives its current, with no resistor',
    finds: [
      '0 led/no-series-resistor LED1 U1.13 PS1.- | LED1, U1, 13, D3, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 pin/over-current U1.13 LED1 | LED1, 16.1 mA, U1, 13, D3, 10 mA, 330 Ω',
    ],
    bench: memoryBench(`${READS}LED1 led g23 g30\nWD wire f30 -j20`),
  },
  {
    says: 'an LED at a memory that takes its current, with no resistor',
    finds: [
      '0 led/no-series-resistor LED1 PS1.+ U1.13 | LED1, PS1, U1, 13, D3, 50 Ω, 330 Ω, 10 mA',
      '0 led/over-current LED1 | LED1, 33.4 mA, 30 mA, 100 Ω',
      '0 pin/over-current U1.13 LED1 | LED1, 33.4 mA, U1, 13, D3, 10 mA, 330 Ω',
    ],
    bench: memoryBench(`${READS}LED1 led g30 g23\nWD wire f30 +j20\nU1 memory 000=00`),
  },
  {
    says: 'two LEDs at one output',
    finds: [
      '0 led/no-series-resistor LED1 U1.13 PS1.- | LED1, U1, 13, D3, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 led/no-series-resistor LED2 U1.13 PS1.- | LED2, U1, 13, D3, PS1, 50 Ω, 330 Ω, 10 mA',
      '0 pin/over-current U1.13 LED1 LED2 | LED1, LED2, 16.3 mA, U1, 13, D3, 10 mA, 680 Ω',
    ],
    bench: memoryBench(`${READS}LED1 led g23 g30\nLED2 led i23 i31\nWD wire f30 -j20\nWE wire f31 -j21`),
  },
  {
    says: 'an LED between two outputs',
    finds: [
      '0 led/no-series-resistor LED1 U1.13 U1.14 | LED1, U1, 13, D3, U1, 14, D4, 50 Ω, 330 Ω, 10 mA',
      '0 pin/over-current U1.13 LED1 | LED1, 14.5 mA, U1, 13, D3, 10 mA, 330 Ω',
      '0 pin/over-current U1.14 LED1 | LED1, 14.5 mA, U1, 14, D4, 10 mA, 330 Ω',
    ],
    bench: memoryBench(`${READS}U1 memory 000=08\nLED1 led g23 g22`),
  },
  // supplies
  {
    says: 'no supply at all',
    finds: ['1 part/leg-not-connected R1.1 R1 a10 | R1, 1, a10', '1 part/leg-not-connected R1.2 R1 a15 | R1, 2, a15'],
    bench: 'B1 board-63\nR1 resistor a10 a15 ohms=1k',
  },
  {
    says: 'a supply whose terminals a wire joins',
    finds: ['0 supply/current-limit PS1 WS | PS1, 500 mA, 500 mA, 0 V'],
    bench: `${FED}\nWS wire +j9 -j9`,
  },
  {
    says: 'a short through a resistor and an LED',
    finds: ['0 supply/current-limit PS1 R1 R2 | PS1, 500 mA, 500 mA, 0.601 V, 5 V, R1, R2'],
    bench: `${FED}\nR1 resistor a10 a15 ohms=2\nR2 resistor b10 b15 ohms=3\nW1 wire c10 -j5\nW2 wire c15 +j5`,
  },
  {
    says: 'a supply that is off',
    finds: ['0 led/no-series-resistor LED1 PS1.+ PS1.- | LED1, PS1, PS1, 50 Ω, 330 Ω, 10 mA'],
    bench: `${FED.replace('PS1 hands 1', 'PS1 hands 0')}\n${LED}W1 wire b10 +j3\nW2 wire b14 -j3`,
  },
  { says: 'two supplies with a common minus', finds: [], bench: `${FED}\n${SECOND(9, '+a1')}R1 resistor a20 +a9 ohms=1k\nW1 wire b20 -j9` },
  {
    says: 'two supplies with nothing between them',
    finds: [],
    bench: `${FED}\n${SECOND(9, '+a1', '-a1')}R1 resistor a20 +a9 ohms=1k\nW1 wire b20 -a9\nR2 resistor j20 +j9 ohms=1k\nW2 wire i20 -j9`,
  },
  {
    says: 'two supplies that share a part and no terminal',
    finds: ['1 supply/grounds-not-connected PS2 PS1 PS2.- PS1.- | PS2, PS1, PS2, PS1'],
    bench: `${FED}\n${SECOND(9, '+a1', '-a1')}R1 resistor a20 +a9 ohms=1k\nW1 wire b20 -j9`,
  },
  {
    says: 'a switch across the supply',
    finds: ['0 switch/pole-shorts-supply S1 S1.2 S1.3 PS1 | 2, S1, PS1, 500 mA, 500 mA, 10 kΩ'],
    bench: `${FED}\nS1 dip-switch e10 poles=2\nW1 wire a11 -j5\nW2 wire j11 +j5`,
  },
  {
    says: 'a button across the supply the other way round',
    finds: ['0 switch/pole-shorts-supply S1 S1.1 S1.2 PS1 | S1, PS1, 500 mA, 500 mA, 10 kΩ'],
    bench: `${FED}\nS1 push-button e10\nW1 wire a10 +j5\nW2 wire a12 -j5`,
  },
  {
    says: 'the same at a supply of 0.1 A',
    finds: ['0 switch/pole-shorts-supply S1 S1.1 S1.2 PS1 | S1, PS1, 100 mA, 100 mA, 10 kΩ'],
    bench: `${FED.replace('volts=5', 'volts=5 amps=0.1')}\nS1 push-button e10\nW1 wire a10 +j5\nW2 wire a12 -j5`,
  },
  // rails
  {
    says: 'a rail that nothing feeds',
    finds: ['1 board/rail-not-connected B1 PS1.- LED1 | B1, LED1, PS1'],
    bench: `${FED}\nR1 resistor b10 +j5 ohms=330\n${LED}W1 wire b14 -a3`,
  },
  {
    says: 'a rail that two parts hang on and nothing feeds',
    finds: ['1 board/rail-not-connected B1 PS1.+ R1 R2 | B1, R1, R2, PS1', '1 part/leg-not-connected R2.1 R2 b12 | R2, 1, b12'],
    bench: `${FED}\nR1 resistor b10 +a5 ohms=330\nR2 resistor b12 +a7 ohms=330\n${LED}W1 wire b14 -j3`,
  },
  {
    says: 'a rail fed through 20 Ω',
    finds: [],
    bench: `${FED}\nR9 resistor -a9 -j9 ohms=20\nR1 resistor b10 +j5 ohms=330\n${LED}W1 wire b14 -a3`,
  },
  {
    says: 'a rail fed through 100 Ω',
    finds: ['1 board/rail-not-connected B1 PS1.- R9 LED1 | B1, R9, LED1, PS1'],
    bench: `${FED}\nR9 resistor -a9 -j9 ohms=100\nR1 resistor b10 +j5 ohms=330\n${LED}W1 wire b14 -a3`,
  },
  {
    says: 'the right half of a split rail fed and the left not',
    finds: ['1 board/rail-half-not-connected +j25 +j26 B1 | B1, +j25, +j26'],
    bench: `B1 board-63 split\nPS1 bench-supply volts=5\nWP wire PS1.+ +j45 red\nWN wire PS1.- -j45 black\nLED1 led a5 a9\nR1 resistor b5 +j4 ohms=330\nW1 wire b9 -j46\nPS1 hands 1`,
  },
  {
    says: 'the left half of a split rail fed and the right not, its holes beside the cut taken',
    finds: ['1 board/rail-half-not-connected +j27 +j25 B1 | B1, +j27, +j25'],
    bench: `B1 board-63 split\nPS1 bench-supply volts=5\nWP wire PS1.+ +j1 red\nWN wire PS1.- -j1 black\nLED1 led a50 a54\nR1 resistor b50 +j26 ohms=330\nW1 wire b54 -j2\nPS1 hands 1`,
  },
  {
    says: 'a split rail both halves of which are fed',
    finds: [],
    bench: `B1 board-63 split\nPS1 bench-supply volts=5\nWP wire PS1.+ +j1 red\nWN wire PS1.- -j1 black\nWJ wire +j3 +j40\nLED1 led a50 a54\nR1 resistor b50 +j45 ohms=330\nW1 wire b54 -j2\nPS1 hands 1`,
  },
  // legs
  {
    says: 'a resistor with both legs in one row',
    finds: ['1 part/both-legs-in-one-row R1 R1.1 R1.2 | R1'],
    bench: `${FED}\nR1 resistor a10 c10 ohms=1k`,
  },
  {
    says: 'a leg that is alone, with a wire that leads nowhere',
    finds: ['1 part/leg-not-connected R1.1 R1 W2 b10 | R1, 1, b10, W2'],
    bench: `${FED}\nR1 resistor b10 +j5 ohms=330\nW2 wire a10 a20`,
  },
  {
    says: 'a leg in a rail alone',
    finds: ['1 board/rail-not-connected B1 PS1.+ R1 | B1, R1, PS1'],
    bench: `${FED}\nR1 resistor a10 +a5 ohms=330\nW1 wire b10 -j5`,
  },
  {
    says: 'a button wired on one side',
    finds: ['1 switch/one-side-only S1 S1.1 S1.4 S1.2 | S1, 1, 4, 2'],
    bench: `${FED}\nS1 push-button e40\nR1 resistor b40 +j9 ohms=330\nW1 wire j40 -j9`,
  },
  {
    says: 'a button wired on the other side',
    finds: ['1 switch/one-side-only S1 S1.2 S1.3 S1.1 | S1, 2, 3, 1'],
    bench: `${FED}\nS1 push-button e40\nR1 resistor j42 +j9 ohms=330\nW1 wire a42 -j9`,
  },
  { says: 'a button wired across', finds: [], bench: `${FED}\nS1 push-button e40\nR1 resistor b40 +j9 ohms=330\nW1 wire j42 -j9` },
  // chips
  {
    says: 'a memory without a plus',
    finds: ['0 pin/over-voltage U1.21 | U1, 21, 5 V, 3.82 V, 22.9 mA, 20 mA, 1.2 kΩ', '1 chip/no-supply U1 U1.24 | U1, 24, 4.5, 5.5 V'],
    bench: memoryBench(READS, 'WV'),
  },
  {
    says: 'a memory without a minus',
    finds: ['1 chip/no-supply U1 U1.12 | U1, 12, 4.5, 5.5 V', '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(READS, 'WG'),
  },
  {
    says: 'a memory with neither',
    finds: ['1 chip/no-supply U1 U1.24 U1.12 | U1, 24, 12, 4.5, 5.5 V', '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(READS, 'WV', 'WG'),
  },
  {
    says: 'a memory the wrong way round',
    finds: [
      '0 chip/supply-reversed U1 U1.24 U1.12 | U1, 24, 12, −5 V, 0 V',
      '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF',
    ],
    of: 'chip/',
    bench: memoryBench(`${READS}WV wire j12 -j30\nWG wire a23 +j30`, 'WV', 'WG'),
  },
  {
    says: 'a memory with its plus on minus',
    finds: [
      '0 chip/supply-reversed U1 U1.24 | U1, 24, 5 V',
      '0 pin/over-voltage U1.21 | U1, 21, 4.98 V, 0 V, 175 mA, 20 mA, 5.6 kΩ',
      '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF',
    ],
    bench: memoryBench(`${READS}WV wire j12 -j30`, 'WV'),
  },
  {
    says: 'a memory with its minus on plus',
    finds: ['0 chip/supply-reversed U1 U1.12 | U1, 12, 5 V', '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    of: 'chip/',
    bench: memoryBench(`${READS}WG wire a23 +j30`, 'WG'),
  },
  {
    says: 'a memory at 3 V',
    finds: ['2 chip/supply-out-of-range U1 U1.24 | U1, 3 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('volts=5', 'volts=3'),
  },
  {
    says: 'a memory at 6 V',
    finds: ['2 chip/supply-out-of-range U1 U1.24 | U1, 6 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('volts=5', 'volts=6'),
  },
  {
    says: 'a memory at 7 V',
    finds: ['2 chip/supply-out-of-range U1 U1.24 | U1, 7 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('volts=5', 'volts=7'),
  },
  {
    says: 'a memory at 8 V',
    finds: ['0 chip/supply-out-of-range U1 U1.24 | U1, 8 V, 24, 4.5, 5.5 V, 7 V, 5 V'],
    of: 'chip/',
    bench: memoryBench(READS).replace('volts=5', 'volts=8'),
  },
  {
    says: 'an output that feeds a resistor alone',
    finds: ['0 pin/over-current U1.9 | U1, 9, D0, 16.7 mA, 10 mA, 560 Ω'],
    bench: memoryBench(`${READS}R1 resistor a20 -a40 ohms=100`),
  },
  {
    says: 'an output into which a resistor feeds',
    finds: ['0 pin/over-current U1.9 | U1, 9, D0, 30 mA, 10 mA, 560 Ω'],
    bench: memoryBench(`${READS}R1 resistor a20 -a40 ohms=100\nU1 memory 000=00`.replace('-a40', '+j40')),
  },
  {
    says: 'a memory at 1 V',
    finds: ['1 chip/supply-out-of-range U1 U1.24 | U1, 0.999 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('volts=5', 'volts=1'),
  },
  { says: 'a memory whose supply is off', finds: [], bench: memoryBench(READS).replace('PS1 hands 1', 'PS1 hands 0') },
  {
    says: 'a memory whose capacitor is on one net',
    finds: ['1 part/both-legs-in-one-row C8 C8.1 C8.2 | C8', '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(`${READS}C8 capacitor i11 g11 farads=100n\nW8 wire h11 g12`, 'C9', 'WC9'),
  },
  {
    says: 'a memory with an electrolytic alone',
    finds: ['3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(`${READS}C8 electrolytic i12 i10 farads=10u\nW8 wire f10 -j2`, 'C9', 'WC9'),
  },
  {
    says: 'a memory with two capacitors of 9 nF',
    finds: ['3 chip/no-decoupling U1 U1.24 U1.12 | U1, 9 nF, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(`${READS}C8 capacitor i12 i10 farads=9n`).replace('farads=100n', 'farads=9n'),
  },
  {
    says: 'an address pin in the air',
    finds: ['1 input/floating U1.5 | U1, 5, A3, 10 µA, 0.8 V, 80 kΩ, 10 kΩ, 0.1 V'],
    bench: memoryBench(READS, 'WA3'),
  },
  {
    says: 'an address pin held by 82 kΩ',
    finds: ['1 input/floating U1.5 | U1, 5, A3, 82 kΩ, 10 µA, 0.8 V, 80 kΩ, 10 kΩ, 0.1 V'],
    bench: memoryBench(`${READS}R3 resistor a16 -a20 ohms=82k`, 'WA3'),
  },
  {
    says: 'an address pin at 1.0 V',
    finds: ['1 input/between-levels U1.5 | U1, 5, A3, 0.999 V, 0.8 V, 2 V'],
    bench: memoryBench(`${READS}R3 resistor a16 -a20 ohms=1k\nR4 resistor b16 +j20 ohms=4k`, 'WA3'),
  },
  {
    says: 'an address pin at 1.8 V',
    finds: ['1 input/between-levels U1.5 | U1, 5, A3, 1.78 V, 0.8 V, 2 V'],
    bench: memoryBench(`${READS}R3 resistor a16 -a20 ohms=1k\nR4 resistor b16 +j20 ohms=1k8`, 'WA3'),
  },
  {
    says: 'an address pin at 9 V',
    finds: ['0 pin/over-voltage U1.8 | U1, 8, A0, 8.99 V, 5.01 V, 135 mA, 20 mA, 4.7 kΩ'],
    bench: memoryBench(`${READS}${SECOND(9, 'a19')}`, 'WA0'),
  },
  {
    says: 'an address pin at 9 V through 470 Ω',
    finds: [],
    bench: memoryBench(`${READS}${SECOND(9, 'a30')}R5 resistor b30 a19 ohms=470`, 'WA0'),
  },
  {
    says: 'an address pin at 9 V through 120 Ω',
    finds: ['0 pin/over-voltage U1.8 | U1, 8, A0, 6.19 V, 5 V, 23.4 mA, 20 mA, 1.2 kΩ'],
    bench: memoryBench(`${READS}${SECOND(9, 'a30')}R5 resistor b30 a19 ohms=120`, 'WA0'),
  },
  {
    says: 'an address pin 3 V below minus',
    finds: ['0 chip/supply-reversed U1 U1.12 | U1, 12, 3 V', '0 pin/over-voltage U1.8 | U1, 8, A0, −2.99 V, 95.6 mA, 20 mA, 3.3 kΩ'],
    bench: memoryBench(`${READS}PS2 bench-supply volts=3\nPS2 hands 1\nX1 wire PS2.- a19\nX2 wire PS2.+ -j40`, 'WA0'),
  },
  {
    says: 'A9 at 14 V',
    finds: ['0 pin/over-voltage U1.22 | U1, 22, A9, 14 V, 13.5 V'],
    bench: memoryBench(`${READS}${SECOND(14, 'j14')}`, 'WA9'),
  },
  { says: 'A9 at 12 V', finds: [], bench: memoryBench(`${READS}${SECOND(12, 'j14')}`, 'WA9') },
  // contention
  {
    says: 'an output held to minus by a wire',
    finds: ['0 net/bus-contention U1.9 PS1.- | U1, 9, D0, PS1, 18.7 mA, 10 mA, 1 kΩ'],
    bench: memoryBench(`${READS}WD wire a20 -a14`),
  },
  {
    says: 'an output held to plus by a wire',
    finds: ['0 net/bus-contention U1.9 PS1.+ | U1, 9, D0, PS1, 36 mA, 10 mA, 1 kΩ'],
    bench: memoryBench(`${READS}U1 memory 000=00\nWD wire a20 +j14`),
  },
  {
    says: 'an output held to plus by a closed switch',
    finds: ['0 net/bus-contention U1.9 PS1.+ | U1, 9, D0, PS1, 36 mA, 10 mA, 1 kΩ'],
    bench: memoryBench(`${READS}U1 memory 000=00\nS1 dip-switch e45 poles=1\nS1 hands 1\nWS1 wire a45 a20\nWS2 wire j45 +j25`),
  },
  { says: 'an output and a pull-down of 1 kΩ', finds: [], bench: memoryBench(`${READS}RD resistor a20 -a14 ohms=1k`) },
  {
    says: 'two memories on one line, alike',
    finds: [],
    of: 'net/',
    bench: memoryBench(`${READS}${''}U2 eeprom-2kx8 d32\nWD wire a20 a40\nWV2 wire j32 +j30\nWG2 wire a43 -a30\nWX2 wire j38 -j31`),
  },
  {
    says: 'two memories on one line, against each other',
    finds: ['0 net/bus-contention U2.9 U1.9 | U2, 9, D0, U1, 9, D0, 17.9 mA, 10 mA, 0.815 V'],
    bench: memoryBench(
      `${READS}U1 memory 000=00\nU2 eeprom-2kx8 d32\nWD wire a20 a40\nWV2 wire j32 +j30\nWG2 wire a43 -a30\nWX2 wire j38 -j31\nWO2 wire j36 -j32\nWW2 wire j35 +j32\n${[32, 33, 34, 35, 36, 37, 38, 39].map((r, i) => `WB${i} wire a${r} -a${40 + i}`).join('\n')}\nWB8 wire j33 -j33\nWB9 wire j34 -j34\nWB10 wire j37 -j35\nC8 capacitor g32 g30 farads=100n\nWC8 wire f30 -j36`,
    ),
  },
  // writes
  { says: 'a byte written well', finds: [], bench: memoryBench(DATA_5A + writeButton()), acts: [press, release], waits: 0.02 },
  {
    says: 'a byte written with a pulse of 330 pF',
    finds: ['1 memory/write-pulse-short U1 | U1, 35.5 ns, 100 ns, 5A, 000, 2.8 times'],
    bench: memoryBench(DATA_5A + writeButton('330p')),
    acts: [press, release],
    waits: 0.02,
  },
  {
    says: 'a byte written with a pulse of 2 nF',
    finds: ['2 memory/write-pulse-long U1 | U1, 1.39 µs, 1 µs, 1.4 times'],
    bench: memoryBench(DATA_5A + writeButton('4n')),
    acts: [press, release],
    waits: 0.02,
  },
  {
    says: 'a byte written twice with a pulse of 4 nF',
    finds: ['2 memory/write-pulse-long U1 | U1, 1.39 µs, 1 µs, 1.4 times'],
    bench: memoryBench(DATA_5A + writeButton('4n')),
    acts: [press, release, press, release],
    waits: 0.02,
  },
];
