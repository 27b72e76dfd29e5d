/** The demonstration tables: what each is for, its names and its rules, in the order they are offered. */
import { counted, type DemoTable } from './table.ts';

/** Sixteen sectors: on an even one its LED is lit, between two LEDs both are. */
const led = (name: string, i: number): string => {
  const sectors = [2 * i - 1, 2 * i, 2 * i + 1].map((s) => `sector = ${(s + 16) % 16}`);
  return `${name} = ${sectors.join(' OR ')}`;
};
const LEDS = ['N', 'NE', 'E', 'SE', 'S', 'SW', 'W', 'NW'];

export const windVane: DemoTable = {
  id: 'wind-vane',
  title: 'Wind vane',
  description:
    'A disc with four Gray-coded tracks turns under the vane, so that only one sensor changes from sector to sector. LEDs show the wind; between two directions both are lit.',
  inputs: counted('G', 4),
  outputs: LEDS,
  arrangement: 'ring',
  rules: ['sector = fromgray(G3..G0)', ...LEDS.map(led)].join('\n'),
};

const segments = (digit: string): readonly string[] => ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((s) => `${digit}${s}`);
const group = (digit: string): string => `{${segments(digit).toReversed().join(', ')}}`;

export const ticketCounter: DemoTable = {
  id: 'ticket-counter',
  title: 'Bakery ticket counter',
  description:
    'Units and tens as BCD on eight switches, two 7-segment displays that show the number being served. Below ten the tens stay dark.',
  inputs: [...counted('U', 4), ...counted('T', 4)],
  outputs: [...segments('u'), ...segments('t')],
  rules: `units = U3..U0
tens = T3..T0
${group('u')} = digit(units)
${group('t')} = if tens = 0 then 0 else digit(tens)
dontcare when units > 9 OR tens > 9`,
};

/** Positions 1 to 7; 1, 2 and 4 hold the parities of the positions that have that bit in their number. */
const hammingEncoder: DemoTable = {
  id: 'hamming-encoder',
  title: 'Hamming coder',
  description: 'Four data bits become seven, so that any one of them may be changed on the way and is found again by the decoder.',
  inputs: ['d1', 'd2', 'd3', 'd4'],
  outputs: ['c1', 'c2', 'c3', 'c4', 'c5', 'c6', 'c7'],
  rules: `c3 = d1; c5 = d2; c6 = d3; c7 = d4
c1 = d1 ⊕ d2 ⊕ d4
c2 = d1 ⊕ d3 ⊕ d4
c4 = d2 ⊕ d3 ⊕ d4`,
};

const hammingDecoder: DemoTable = {
  id: 'hamming-decoder',
  title: 'Hamming decoder',
  description: 'Seven bits come in; four LEDs show the data with one wrong bit corrected, three show which position was wrong, 0 for none.',
  inputs: ['c1', 'c2', 'c3', 'c4', 'c5', 'c6', 'c7'],
  outputs: ['d1', 'd2', 'd3', 'd4', ...counted('wrong', 3)],
  rules: `wrong0 = c1 ⊕ c3 ⊕ c5 ⊕ c7
wrong1 = c2 ⊕ c3 ⊕ c6 ⊕ c7
wrong2 = c4 ⊕ c5 ⊕ c6 ⊕ c7
position = wrong2..wrong0
d1 = c3 ⊕ (position = 3)
d2 = c5 ⊕ (position = 5)
d3 = c6 ⊕ (position = 6)
d4 = c7 ⊕ (position = 7)`,
};

export const ferryRamp: DemoTable = {
  id: 'ferry-ramp',
  title: 'Ferry ramp signals',
  description:
    'The crew turns the key; the ramp goes down only behind a shut barrier and with the ferry moored, and cars get green only over a ramp that is down. Limit switches that contradict each other stop everything.',
  inputs: ['key', 'moored', 'calm', 'down', 'up', 'open', 'shut'],
  outputs: ['green', 'red', 'bell', 'ramp_down', 'ramp_up', 'barrier_open', 'barrier_shut', 'alarm'],
  rules: `fault = (down AND up) OR (open AND shut) OR (down AND NOT moored AND NOT shut)
go = key AND moored AND NOT fault
ramp_down = go AND calm AND shut AND NOT down
ramp_up = NOT key AND NOT fault AND shut AND NOT up
barrier_open = go AND down AND NOT open
barrier_shut = NOT shut AND (NOT key OR fault) AND NOT (open AND shut)
green = go AND down AND open
red = NOT green
bell = ramp_down OR ramp_up OR barrier_shut
alarm = fault`,
  activeLow: ['green', 'red', 'bell', 'ramp_down', 'ramp_up', 'barrier_open', 'barrier_shut', 'alarm'],
};

/** Polynomial x^16 + x^12 + x^5 + 1; each input bit adds the polynomial, moved up by its place. */
const crcNibble: DemoTable = {
  id: 'crc-nibble',
  title: 'CRC table',
  description:
    'Four bits in, the sixteen bits to be added to the remainder out: with a register of sixteen bits beside it, a check sum of any message.',
  inputs: counted('N', 4),
  outputs: counted('R', 16),
  rules: 'R15..R0 = (N0 times 0x1021) XOR (N1 times 0x2042) XOR (N2 times 0x4084) XOR (N3 times 0x8108)',
};

export const brailleTutor: DemoTable = {
  id: 'braille-tutor',
  title: 'Braille tutor',
  description:
    'Set the number of a letter, A is 1 and Z is 26, and six LEDs show its Braille cell: dots 1 2 3 down the left, 4 5 6 down the right. 0 is a space.',
  inputs: counted('L', 5),
  outputs: ['dot1', 'dot2', 'dot3', 'dot4', 'dot5', 'dot6'],
  arrangement: 'cell',
  // dot n is bit n − 1, as in the Unicode block Braille Patterns
  rules: `letter = L4..L0
{dot6, dot5, dot4, dot3, dot2, dot1} = pick(letter, 0, 0x01, 0x03, 0x09, 0x19, 0x11, 0x0B, 0x1B, 0x13, 0x0A, 0x1A, 0x05, 0x07, 0x0D, 0x1D, 0x15, 0x0F, 0x1F, 0x17, 0x0E, 0x1E, 0x25, 0x27, 0x3A, 0x2D, 0x3D, 0x35)
dontcare when letter > 26`,
};

export const addingMachine: DemoTable = {
  id: 'adding-machine',
  title: 'Adding machine',
  description:
    'Two numbers from 0 to 15 on eight switches, their sum from 0 to 30 on five LEDs. In gates this takes carries; here it is one look-up.',
  inputs: [...counted('B', 4), ...counted('A', 4)],
  outputs: counted('S', 5),
  rules: 'S4..S0 = A3..A0 plus B3..B0',
};

/** The demonstration tables, in the order in which they are offered. */
export const DEMO_TABLES: readonly DemoTable[] = [
  brailleTutor,
  windVane,
  ticketCounter,
  addingMachine,
  ferryRamp,
  hammingEncoder,
  hammingDecoder,
  crcNibble,
];
