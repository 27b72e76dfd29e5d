/** Small benches with one thing about them that a rule has to tell apart from its neighbours: chips, contention and writes. */
import { DATA_5A, FED, memoryBench, writeButton } from '../../sim-core/findings/example-benches.ts';
import type { Action } from '../../sim-core/index.ts';
import { READS, type RuleCase, SECOND } from './rule-benches.ts';

const press: Action = { do: 'press', part: 'S9' };
const release: Action = { do: 'release', part: 'S9' };

export const CHIP_CASES: readonly RuleCase[] = [
  // chips
  {
    says: 'a memory without a plus',
    finds: ['0 chip/no-supply U1 U1.24 | U1, 24, 4.5, 5.5 V', '0 pin/over-voltage U1.21 | U1, 21, 5 V, 3.78 V, 24.7 mA, 20 mA, 1.5 kΩ'],
    bench: memoryBench(READS, 'WV'),
  },
  {
    says: 'a memory without a minus',
    finds: ['1 chip/no-supply U1 U1.12 | U1, 12, 4.5, 5.5 V', '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(READS, 'WG'),
  },
  {
    says: 'a memory with neither',
    finds: [
      '0 chip/no-supply U1 U1.24 U1.12 | U1, 24, 12, 4.5, 5.5 V',
      '0 pin/over-voltage U1.21 | U1, 21, 4.37 V, 3.23 V, 21.4 mA, 20 mA, 1.2 kΩ',
      '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF',
    ],
    bench: memoryBench(READS, 'WV', 'WG'),
  },
  {
    says: 'a memory whose only capacitor is at the far end of the board',
    finds: ['3 chip/no-decoupling U1 U1.24 U1.12 | U1, C8, 70.8, 25.4, 100 nF'],
    of: 'chip/',
    bench: memoryBench(`${READS}capacitor C8 100n from +j40 to -j40`, 'C9', 'WC9'),
  },
  {
    says: 'a memory the wrong way round',
    finds: [
      '0 chip/supply-reversed U1 U1.24 U1.12 | U1, 24, 12, −5 V, 0 V',
      '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF',
    ],
    of: 'chip/',
    bench: memoryBench(`${READS}wire WV from j12 to -j30\nwire WG from a23 to +j30`, 'WV', 'WG'),
  },
  {
    says: 'a memory with its plus on minus',
    finds: [
      '0 chip/supply-reversed U1 U1.24 | U1, 24, 5 V',
      '0 pin/over-voltage U1.21 | U1, 21, 4.98 V, 0 V, 175 mA, 20 mA, 5.6 kΩ',
      '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF',
    ],
    bench: memoryBench(`${READS}wire WV from j12 to -j30`, 'WV'),
  },
  {
    says: 'a memory with its minus on plus',
    finds: ['0 chip/supply-reversed U1 U1.12 | U1, 12, 5 V', '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    of: 'chip/',
    bench: memoryBench(`${READS}wire WG from a23 to +j30`, 'WG'),
  },
  {
    says: 'a memory at 3 V',
    finds: ['1 chip/supply-out-of-range U1 U1.24 | U1, 3 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('PS1 5', 'PS1 3'),
  },
  {
    says: 'a memory at 6 V',
    finds: ['2 chip/supply-out-of-range U1 U1.24 | U1, 6 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('PS1 5', 'PS1 6'),
  },
  {
    says: 'a memory at 7 V',
    finds: ['2 chip/supply-out-of-range U1 U1.24 | U1, 7 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('PS1 5', 'PS1 7'),
  },
  {
    says: 'a clock generator brings its own capacitor',
    finds: [],
    of: 'chip/',
    bench: `${FED}\nclock-generator P1 100\nwire X1 from P1.+ to +j6\nwire X2 from P1.- to -j6\nwire X3 from P1.out to a5`,
  },
  {
    says: 'a rail without a supply on which four resistors hang',
    finds: ['1 board/rail-not-connected B1 PS1.+ R1 R2 R3 R4 | B1, R1, 3, PS1'],
    of: 'board/',
    bench: `${FED}\n${[1, 2, 3, 4].map((k) => `resistor R${k} 1k from +a${5 * k} to a${5 * k}\nwire W${k} from b${5 * k} to -j${9 + k}`).join('\n')}`,
  },
  {
    says: 'a rail without a supply on which three hang',
    finds: ['1 board/rail-not-connected B1 PS1.+ R1 R2 R3 | B1, R1, R2, R3, PS1'],
    of: 'board/',
    bench: `${FED}\n${[1, 2, 3].map((k) => `resistor R${k} 1k from +a${5 * k} to a${5 * k}\nwire W${k} from b${5 * k} to -j${9 + k}`).join('\n')}`,
  },
  {
    says: 'a supply shorted by two wires of which either would do: both are named',
    finds: ['0 supply/current-limit PS1 W1 W2 | PS1, 500 mA, 500 mA, 0 V, W1, W2'],
    of: 'supply/',
    bench: `${FED}\nwire W1 from +j5 to a10\nwire W2 from b10 to -j5`,
  },
  {
    says: 'a memory whose plus comes through a resistor has none',
    finds: ['0 chip/no-supply U1 U1.24 | U1, 24, 4.5, 5.5 V'],
    of: 'chip/no-s',
    bench: memoryBench(`${READS}resistor RV 1k from j12 to +j2`, 'WV'),
  },
  {
    says: 'a pole across two supplies side by side: the first is named',
    finds: ['0 switch/pole-shorts-supply S1 S1.1 S1.2 PS1 | 1, S1, PS1, 500 mA, 500 mA, 10 kΩ'],
    of: 'switch/',
    bench: `${FED}\n${SECOND(5, '+j8', '-j8')}dip-switch S1 at e40 with poles 1\nwire W1 from a40 to -j9\nwire W2 from j40 to +j9`,
  },
  {
    says: 'a strong output against a weak one: the limit is that of the weaker',
    finds: ['0 net/bus-contention U2.18 U1.9 V5 | U2, 18, 1Y1, U1, 9, D0, 33.7 mA, 10 mA, 3.08 V, V5'],
    of: 'net/',
    bench: memoryBench(
      `${READS}memory U1 000 00\noctal-buffer U2 at e40\nwire V1 from j40 to +j30\nwire V2 from a49 to -a30\nwire V3 from a40 to -a31\nwire V4 from a41 to +j31\nwire V5 from j42 to a20`,
    ),
  },
  {
    says: 'a DIP switch on one half of the board',
    finds: ['1 part/both-legs-in-one-row S1 S1.1 S1.4 | S1, 1, 4, 2'],
    of: 'part/',
    bench: `${FED}\ndip-switch S1 at a10 with poles 2`,
  },
  {
    says: 'a memory with just 10 nF',
    finds: [],
    of: 'chip/',
    bench: memoryBench(READS).replace('capacitor C9 100n', 'capacitor C9 10n'),
  },
  {
    says: 'a memory at 8 V',
    finds: ['0 chip/supply-out-of-range U1 U1.24 | U1, 8 V, 24, 4.5, 5.5 V, 7 V, 5 V'],
    of: 'chip/',
    bench: memoryBench(READS).replace('PS1 5', 'PS1 8'),
  },
  {
    says: 'an output that feeds a resistor alone',
    finds: ['0 pin/over-current U1.9 | U1, 9, D0, 16.7 mA, 10 mA, 560 Ω'],
    bench: memoryBench(`${READS}resistor R1 100 from a20 to -a40`),
  },
  {
    says: 'an output into which a resistor feeds',
    finds: ['0 pin/over-current U1.9 | U1, 9, D0, 30 mA, 10 mA, 560 Ω'],
    bench: memoryBench(`${READS}resistor R1 100 from a20 to -a40\nmemory U1 000 00`.replace('-a40', '+j40')),
  },
  {
    says: 'a memory at 1 V',
    finds: ['1 chip/supply-out-of-range U1 U1.24 | U1, 1 V, 24, 4.5, 5.5 V, 5 V'],
    bench: memoryBench(READS).replace('PS1 5', 'PS1 1'),
  },
  { says: 'a memory whose supply is off', finds: [], bench: memoryBench(READS).replace('switch PS1 set 1', 'switch PS1 set 0') },
  {
    says: 'a memory whose capacitor is on one net',
    finds: ['1 part/both-legs-in-one-row C8 C8.1 C8.2 | C8', '3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(`${READS}capacitor C8 100n from i11 to g11\nwire W8 from h11 to g12`, 'C9', 'WC9'),
  },
  {
    says: 'a memory with an electrolytic alone',
    finds: ['3 chip/no-decoupling U1 U1.24 U1.12 | U1, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(`${READS}electrolytic C8 10u from i12 to i10\nwire W8 from f10 to -j2`, 'C9', 'WC9'),
  },
  {
    says: 'a memory with two capacitors of 9 nF',
    finds: ['3 chip/no-decoupling U1 U1.24 U1.12 | U1, 9 nF, 24, 12, 10 nF, 100 nF'],
    bench: memoryBench(`${READS}capacitor C8 9n from i12 to i10`).replace('C9 100n', 'C9 9n'),
  },
  {
    says: 'an address pin in the air',
    finds: ['1 input/floating U1.5 | U1, 5, A3, 10 µA, 0.8 V, 80 kΩ, 10 kΩ, 0.1 V'],
    bench: memoryBench(READS, 'WA3'),
  },
  {
    says: 'an address pin held by 82 kΩ',
    finds: ['1 input/floating U1.5 | U1, 5, A3, 82 kΩ, 10 µA, 0.8 V, 80 kΩ, 10 kΩ, 0.1 V'],
    bench: memoryBench(`${READS}resistor R3 82k from a16 to -a20`, 'WA3'),
  },
  {
    says: 'an address pin at 1.0 V',
    finds: ['1 input/between-levels U1.5 | U1, 5, A3, 1 V, 0.8 V, 2 V'],
    bench: memoryBench(`${READS}resistor R3 1k from a16 to -a20\nresistor R4 4k from b16 to +j20`, 'WA3'),
  },
  {
    says: 'an address pin at 1.8 V',
    finds: ['1 input/between-levels U1.5 | U1, 5, A3, 1.79 V, 0.8 V, 2 V'],
    bench: memoryBench(`${READS}resistor R3 1k from a16 to -a20\nresistor R4 1k8 from b16 to +j20`, 'WA3'),
  },
  {
    says: 'an address pin at 9 V',
    finds: ['0 pin/over-voltage U1.8 | U1, 8, A0, 8.99 V, 5.01 V, 135 mA, 20 mA, 4.7 kΩ'],
    bench: memoryBench(`${READS}${SECOND(9, 'a19')}`, 'WA0'),
  },
  {
    says: 'an address pin at 9 V through 470 Ω',
    finds: [],
    bench: memoryBench(`${READS}${SECOND(9, 'a30')}resistor R5 470 from b30 to a19`, 'WA0'),
  },
  {
    says: 'an address pin at 9 V through 120 Ω',
    finds: ['0 pin/over-voltage U1.8 | U1, 8, A0, 6.19 V, 5 V, 23.4 mA, 20 mA, 1.2 kΩ'],
    bench: memoryBench(`${READS}${SECOND(9, 'a30')}resistor R5 120 from b30 to a19`, 'WA0'),
  },
  {
    says: 'an address pin 3 V below minus',
    finds: ['0 chip/supply-reversed U1 U1.12 | U1, 12, 3 V', '0 pin/over-voltage U1.8 | U1, 8, A0, −2.99 V, 95.6 mA, 20 mA, 3.3 kΩ'],
    bench: memoryBench(`${READS}bench-supply PS2 3\nswitch PS2 set 1\nwire X1 from PS2.- to a19\nwire X2 from PS2.+ to -j40`, 'WA0'),
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
    finds: ['0 net/bus-contention U1.9 PS1.- WD | U1, 9, D0, PS1, 18.7 mA, 10 mA'],
    bench: memoryBench(`${READS}wire WD from a20 to -a14`),
  },
  {
    says: 'an output held to plus by a wire',
    finds: ['0 net/bus-contention U1.9 PS1.+ WD | U1, 9, D0, PS1, 36 mA, 10 mA'],
    bench: memoryBench(`${READS}memory U1 000 00\nwire WD from a20 to +j14`),
  },
  {
    says: 'an output held to plus by a closed switch',
    finds: ['0 net/bus-contention U1.9 PS1.+ | U1, 9, D0, PS1, 36 mA, 10 mA, 1 kΩ'],
    bench: memoryBench(
      `${READS}memory U1 000 00\ndip-switch S1 at e45 with poles 1\nswitch S1 set 1\nwire WS1 from a45 to a20\nwire WS2 from j45 to +j25`,
    ),
  },
  { says: 'an output and a pull-down of 1 kΩ', finds: [], bench: memoryBench(`${READS}resistor RD 1k from a20 to -a14`) },
  {
    says: 'two memories on one line, alike',
    finds: [],
    of: 'net/',
    bench: memoryBench(
      `${READS}${''}eeprom-2kx8 U2 at d32\nwire WD from a20 to a40\nwire WV2 from j32 to +j30\nwire WG2 from a43 to -a30\nwire WX2 from j38 to -j31`,
    ),
  },
  {
    says: 'two memories on one line, against each other',
    finds: ['0 net/bus-contention U2.9 U1.9 WD | U2, 9, D0, U1, 9, D0, 17.9 mA, 10 mA, 0.816 V'],
    bench: memoryBench(
      `${READS}memory U1 000 00\neeprom-2kx8 U2 at d32\nwire WD from a20 to a40\nwire WV2 from j32 to +j30\nwire WG2 from a43 to -a30\nwire WX2 from j38 to -j31\nwire WO2 from j36 to -j32\nwire WW2 from j35 to +j32\n${[32, 33, 34, 35, 36, 37, 38, 39].map((r, i) => `wire WB${i} from a${r} to -a${40 + i}`).join('\n')}\nwire WB8 from j33 to -j33\nwire WB9 from j34 to -j34\nwire WB10 from j37 to -j35\ncapacitor C8 100n from g32 to g30\nwire WC8 from f30 to -j36`,
    ),
  },
  // writes
  {
    says: 'a byte written well',
    finds: [],
    bench: memoryBench(DATA_5A + writeButton().replace('RC 100k', 'RC 8M2')),
    acts: [press, release],
    waits: 0.02,
  },
  {
    says: 'a byte written with a pulse of 330 pF',
    finds: [
      '1 memory/write-pulse-short U1 | U1, 35.7 ns, 100 ns, 5A, 0x000, 2.8 times',
      '2 memory/bounce-writes-again RC S9 U1.21 | S9, 6.2 ms, 33 µs, U1, 21, 0 V, 2 V',
    ],
    bench: memoryBench(DATA_5A + writeButton('330p')),
    acts: [press, release],
    waits: 0.02,
  },
  {
    says: 'a byte written with a pulse of 2 nF',
    finds: [
      '2 memory/bounce-writes-again RC S9 U1.21 | S9, 6.2 ms, 400 µs, U1, 21, 0 V, 2 V, 2.2 MΩ',
      '2 memory/write-pulse-long U1 | U1, 1.39 µs, 1 µs, 1.4 times',
    ],
    bench: memoryBench(DATA_5A + writeButton('4n')),
    acts: [press, release],
    waits: 0.02,
  },
  {
    says: 'a byte written twice with a pulse of 4 nF',
    finds: [
      '2 memory/bounce-writes-again RC S9 U1.21 | S9, 6.2 ms, 400 µs, U1, 21, 0 V, 2 V, 2.2 MΩ',
      '2 memory/write-pulse-long U1 | U1, 1.39 µs, 1 µs, 1.4 times',
    ],
    bench: memoryBench(DATA_5A + writeButton('4n')),
    acts: [press, release, press, release],
    waits: 0.02,
  },
];
