/** What a logic chip does, in one small drawing of ours and a name short enough for its body. Drawn in a square of 20 units about its middle. */

interface FunctionMark {
  /** path of the strokes */
  readonly d: string;
  readonly name: string;
}

const BOX = 'M-8.5 -8.5h17v17h-17z';
const EDGE = 'M-5.5 5h5.5v-10h5.5M-2.8 -0.6l2.8 -3.4l2.8 3.4';
const GATE = 'M-6 3h3.5l5.6 -5M2.8 3h3.4';
/** Gates: a bullet, a shield, and a ring at an output that inverts. */
const BULLET = 'M-8 -7.5h6.4a7.5 7.5 0 0 1 0 15h-6.4z';
const SHIELD = 'M-8 -7.5h3q7.6 0.8 11 7.5q-3.4 6.7 -11 7.5h-3q4.4 -7.5 0 -15z';
const RING = 'M9.6 0a1.9 1.9 0 1 1 -3.8 0a1.9 1.9 0 1 1 3.8 0';
const FIGURE = 'M-3 -8.5h6M4.4 -7.4v6M4.4 1.4v6M-3 8.5h6M-4.4 1.4v6M-4.4 -7.4v6M-3 0h6';
const PAIR = 'M-8 0h3.4M-4.6 -4.5v9M-4.6 -2l5 -4M-4.6 2l5 3.4M0.4 1v8M0.4 3.2l5.4 -4.4M0.4 6.4l5.4 3.4M5.8 -9v7.8';

/** By part id; a logic chip that is not here shows its title alone. */
export const FUNCTION_MARKS: Readonly<Record<string, FunctionMark>> = {
  'octal-buffer': { name: 'Octal buffer', d: 'M-8 -9.5l14 4.6l-14 4.6zM-8 0.4l14 4.6l-14 4.6z' },
  'octal-transceiver': { name: 'Bus transceiver', d: 'M-9 -4h17M4.6 -7.6l3.6 3.6l-3.6 3.6M9 4h-17M-4.6 0.4l-3.6 3.6l3.6 3.6' },
  'octal-register': { name: 'Octal register', d: BOX + EDGE },
  'octal-register-paired': { name: 'Octal register', d: BOX + EDGE },
  'octal-latch': { name: 'Octal latch', d: BOX + GATE },
  'octal-latch-paired': { name: 'Octal latch', d: BOX + GATE },
  'octal-register-clear': { name: 'Register, clear', d: `${BOX}${EDGE}M3.2 4.8l3.2 3.2M6.4 4.8l-3.2 3.2` },
  'counter-4-bit': {
    name: '4-bit counter',
    d: 'M-9.5 -5h2.4v-4h2.4v4h2.4v-4h2.4v4h2.4v-4h2.4v4h2.4v-4h2.4M-9.5 2h4.8v-4h4.8v4h4.8v-4h4.8M-9.5 9h9.6v-4h9.6',
  },
  'decoder-3-to-8': {
    name: '3-to-8 decoder',
    d: 'M-9.5 -5h4M-9.5 0h4M-9.5 5h4M-5.5 -7.5v15M-5.5 0l14 -9M-5.5 0l14 -4.5M-5.5 0h14M-5.5 0l14 4.5M-5.5 0l14 9',
  },
  'quad-nand': { name: '4 × NAND', d: BULLET + RING },
  'quad-nor': { name: '4 × NOR', d: SHIELD + RING },
  'quad-and': { name: '4 × AND', d: BULLET },
  'quad-or': { name: '4 × OR', d: SHIELD },
  'quad-xor': { name: '4 × XOR', d: `${SHIELD}M-10.4 -7.5q4.4 7.5 0 15` },
  'hex-inverter': { name: '6 × NOT', d: `M-8 -7.5l13.6 7.5l-13.6 7.5z${RING}` },
  'schmitt-inverter': { name: 'Hex inverter', d: 'M-9 6.5h12v-13h6M-3.4 6.5v-13h6.4' },
  'seven-segment-driver-low': { name: 'Display driver, low', d: `${FIGURE}M8.6 -1.8a1.8 1.8 0 1 1 -0.1 0` },
  'seven-segment-driver-high': { name: 'Display driver, high', d: FIGURE },
  'seven-segment-driver-latch': { name: 'Latched display driver', d: `${FIGURE}M-9 -9.5v19M9 -9.5v19` },
  'darlington-array-7': { name: '7 Darlingtons', d: PAIR },
  'darlington-array-8': { name: '8 Darlingtons', d: PAIR },
  // a winding, and a contact between two
  relay: { name: 'Relay', d: 'M-9.5 -7h5v14h-5zM-9.5 4l5 -8M-4.5 0h4M1 6.5h4.5l3.6 -8.6M9.4 -7.5v2.6M3.4 -7.5v2.6' },
  timer: { name: 'Timer', d: 'M-9.5 5.5q3.6 -9.4 7.4 -10.4l1.4 10.4q3.6 -9.4 7.4 -10.4l1.4 10.4M-9.5 -7.4h19M-9.5 8h19' },
};

/** How the cells of a memory keep what they hold; drawn beside its name. By part id. */
export const KEEPING_MARKS: Readonly<Record<string, string>> = {
  // charge behind a barrier
  'eeprom-2kx8': 'M-8 7v-14M8 7v-14M-8 0h16M-3.5 -4h7M0 -7.4v6.8M-4 5h8',
  'eeprom-8kx8': 'M-8 7v-14M8 7v-14M-8 0h16M-3.5 -4h7M0 -7.4v6.8M-4 5h8',
  'eeprom-32kx8': 'M-8 7v-14M8 7v-14M-8 0h16M-3.5 -4h7M0 -7.4v6.8M-4 5h8',
  'eeprom-64kx8': 'M-8 7v-14M8 7v-14M-8 0h16M-3.5 -4h7M0 -7.4v6.8M-4 5h8',
  // two that hold each other
  'static-ram-2kx8': 'M-8 -6l7 4l-7 4zM8 6l-7 -4l7 -4zM-1 -2h5v-5.5h-12v5.5M1 2h-5v5.5h12v-5.5',
  'static-ram-8kx8': 'M-8 -6l7 4l-7 4zM8 6l-7 -4l7 -4zM-1 -2h5v-5.5h-12v5.5M1 2h-5v5.5h12v-5.5',
  'static-ram-32kx8': 'M-8 -6l7 4l-7 4zM8 6l-7 -4l7 -4zM-1 -2h5v-5.5h-12v5.5M1 2h-5v5.5h12v-5.5',
  // joints that are there or not
  'mask-rom-2kx8':
    'M-8 -5h16M-8 0h16M-8 5h16M-5 -8v16M0 -8v16M5 -8v16M-6.2 -5a1.2 1.2 0 1 0 2.4 0a1.2 1.2 0 1 0 -2.4 0M3.8 0a1.2 1.2 0 1 0 2.4 0a1.2 1.2 0 1 0 -2.4 0M-1.2 5a1.2 1.2 0 1 0 2.4 0a1.2 1.2 0 1 0 -2.4 0',
  // a link that melts
  'prom-2kx8': 'M-9 0h3.4M5.6 0h3.4M-5.6 -3.4v6.8M5.6 -3.4v6.8M-5.6 0q2.8 -5.6 5.6 0t5.6 0',
};

/** Memories with a quartz window. */
export const WINDOWED: ReadonlySet<string> = new Set(['uv-eprom-2kx8', 'uv-eprom-8kx8']);
