/** A rule's examples: a bench where it finds something and one where it does not, and the pieces that several share. Only tests read them; no bundle holds them. */
import type { Action } from '../run/action.ts';

/** A small bench in the text notation, with what is done on it: the actions of one inner list begin at the same moment, then everything comes to rest. */
export interface Example {
  readonly bench: string;
  readonly script?: readonly (readonly Action[])[];
  /** so long each is left alone before the next [s] */
  readonly holds?: number;
  /** so long after that [s] */
  readonly waits?: number;
}

/** A rule file exports one of these beside its rule, as a function, so that a build that reads the rule alone leaves it out. */
export interface RuleExamples {
  /** `points`: the id that the finding must name first; `none`: why no bench shows it */
  readonly bad: (Example & { readonly points: string }) | { readonly none: string };
  readonly good: Example;
}

/** A board with its rails fed: +j and −j from the supply, on. */
export const FED = `
  board-63 B1
  bench-supply PS1 5
  wire WP red from PS1.+ to +j1
  wire WN black from PS1.- to -j1
  switch PS1 set 1`;

/**
 * A memory at d12, supplied, with its address at 0 and /CE low. Names of pins' rows: /WE j15, /OE j16, D0 to D2 a20 to a22, D3 to D7 j23 to j19.
 * `without`: ids of lines to leave out.
 */
export function memoryBench(more: string, ...without: string[]): string {
  const address = [12, 13, 14, 15, 16, 17, 18, 19].map((row, i) => `wire WA${7 - i} from a${row} to -a${i + 1}`);
  const lines = [
    'eeprom-2kx8 U1 at d12',
    'capacitor C9 100n from g12 to g10',
    'wire WC9 from f10 to -j2',
    'wire WV red from j12 to +j2',
    'wire WG black from a23 to -a9',
    'wire WX black from -j3 to -a10',
    'wire WCE from j18 to -j4',
    ...address,
    'wire WA8 from j13 to -j5',
    'wire WA9 from j14 to -j6',
    'wire WA10 from j17 to -j7',
  ];
  return `${FED}\n${lines.filter((l) => !without.includes(l.split(' ')[1] ?? '')).join('\n')}\n${more}`;
}

/** What makes a write pulse by hand: /WE up through 680 Ω, a button S9 that connects an empty capacitor to it, and 100 kΩ that discharges it again. */
export const writeButton = (farads = '1n', series = ''): string => `
  resistor RW 680 from ${series === '' ? 'i15' : 'j36'} to +j10
  push-button S9 at e40
  ${series === '' ? 'wire WW from j15 to j40' : `resistor RS ${series} from j15 to i36\n  wire WW from h36 to j40`}
  capacitor CW ${farads} from j42 to -j20
  resistor RC 100k from i42 to -j21
  wire WOE from j16 to +j11`;

/** Data 5A on the data pins by wires. */
export const DATA_5A = `
  wire WD0 from a20 to -a14
  wire WD1 from a21 to +j12
  wire WD2 from a22 to -a15
  wire WD3 from j23 to +j13
  wire WD4 from j22 to +j14
  wire WD5 from j21 to -j22
  wire WD6 from j20 to +j15
  wire WD7 from j19 to -j23`;

/** A switch S1 from plus to A0, with a resistor that pulls it down; leave the wire WA0 out. */
export const addressSwitch = (closed: '0' | '1', ohms: string): string => `
  dip-switch S1 at e45 with poles 1
  switch S1 set ${closed}
  wire WS1 from a45 to a19
  wire WS2 from j45 to +j25
  resistor RA0 ${ohms} from b45 to -a30`;

/** A closed switch S1 from plus to D0, with a resistor that pulls it down. */
export const dataSwitch = (ohms: string): string => `
  dip-switch S1 at e45 with poles 1
  switch S1 set 1
  wire WS1 from a45 to a20
  wire WS2 from j45 to +j25
  resistor RD0 ${ohms} from b45 to -a30`;

/** A memory whose D0 is its own A0, stored so that each address asks for the other. */
export const ring = (): string =>
  memoryBench(
    'wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nwire WF from a20 to a19\nresistor RA 10k from b19 to -a30\nmemory U1 000 FFFE',
    'WA0',
  );

/** A counter that a button clocks; `clock` is between the button and the pin. */
export const counterClocked = (clock: string): string => `${FED}
  counter-4-bit U1 at e20
  capacitor C1 100n from i20 to i17
  wire WD from j17 to -j26
  wire WV from j20 to +j20
  wire WG from a27 to -j28
  wire WM from a20 to +j9
  wire WQ from j27 to +j30
  wire WE from a26 to +j31
  wire WT from j26 to +j32
  ${['a22', 'a23', 'a24', 'a25'].map((hole, i) => `wire W${i} from ${hole} to -j${10 + i}`).join('\n')}
  push-button S9 at e50
  wire WS from a50 to +j40
  ${clock}`;
