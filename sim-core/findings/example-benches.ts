/** Benches that several rules' examples share, in the text notation. */

/** A board with its rails fed: +j and −j from the supply, on. */
export const FED = `
  B1 board-63
  PS1 bench-supply volts=5
  WP wire PS1.+ +j1 red
  WN wire PS1.- -j1 black
  PS1 hands 1`;

/**
 * A memory at d12, supplied, with its address at 0 and /CE low. Names of pins' rows: /WE j15, /OE j16, D0 to D2 a20 to a22, D3 to D7 j23 to j19.
 * `without`: ids of lines to leave out.
 */
export function memoryBench(more: string, ...without: string[]): string {
  const address = [12, 13, 14, 15, 16, 17, 18, 19].map((row, i) => `WA${7 - i} wire a${row} -a${i + 1}`);
  const lines = [
    'U1 eeprom-2kx8 d12',
    'C9 capacitor g12 g10 farads=100n',
    'WC9 wire f10 -j2',
    'WV wire j12 +j2 red',
    'WG wire a23 -a9 black',
    'WX wire -j3 -a10 black',
    'WCE wire j18 -j4',
    ...address,
    'WA8 wire j13 -j5',
    'WA9 wire j14 -j6',
    'WA10 wire j17 -j7',
  ];
  return `${FED}\n${lines.filter((l) => !without.includes(l.split(' ')[0] ?? '')).join('\n')}\n${more}`;
}

/** What makes a write pulse by hand: /WE up through 680 Ω, a button S9 that connects an empty capacitor to it, and 100 kΩ that discharges it again. */
export const writeButton = (farads = '1n', series = ''): string => `
  RW resistor ${series === '' ? 'i15' : 'j36'} +j10 ohms=680
  S9 push-button e40
  ${series === '' ? 'WW wire j15 j40' : `RS resistor j15 i36 ohms=${series}\n  WW wire h36 j40`}
  CW capacitor j42 -j20 farads=${farads}
  RC resistor i42 -j21 ohms=100k
  WOE wire j16 +j11`;

/** Data 5A on the data pins by wires. */
export const DATA_5A = `
  WD0 wire a20 -a14
  WD1 wire a21 +j12
  WD2 wire a22 -a15
  WD3 wire j23 +j13
  WD4 wire j22 +j14
  WD5 wire j21 -j22
  WD6 wire j20 +j15
  WD7 wire j19 -j23`;

/** A switch S1 from plus to A0, with a resistor that pulls it down; leave the wire WA0 out. */
export const addressSwitch = (closed: '0' | '1', ohms: string): string => `
  S1 dip-switch e45 poles=1
  S1 hands ${closed}
  WS1 wire a45 a19
  WS2 wire j45 +j25
  RA0 resistor b45 -a30 ohms=${ohms}`;

/** A closed switch S1 from plus to D0, with a resistor that pulls it down. */
export const dataSwitch = (ohms: string): string => `
  S1 dip-switch e45 poles=1
  S1 hands 1
  WS1 wire a45 a20
  WS2 wire j45 +j25
  RD0 resistor b45 -a30 ohms=${ohms}`;

/** A memory whose D0 is its own A0, stored so that each address asks for the other. */
export const ring = (): string =>
  memoryBench('WOE wire j16 -j9\nWWE wire j15 +j9\nWF wire a20 a19\nRA resistor b19 -a30 ohms=10k\nU1 memory 000=FFFE', 'WA0');
