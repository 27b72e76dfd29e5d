/** Benches for tests: typed in the text notation, built, or the test fails with the sentence that the builder gave. */
import type { Plan } from '../../shared/plan.ts';
import { type Options, readBenchText, type Simulation, simulate } from '../../sim-core/index.ts';

export function planOf(text: string): Plan {
  const read = readBenchText(text);
  if (!read.ok) throw new Error(read.failure.says);
  return read.value;
}

export function start(text: string | Plan, options: Partial<Options> = {}): Simulation {
  const built = simulate(typeof text === 'string' ? planOf(text) : text, options);
  if (!built.ok) throw new Error(built.failure.says);
  return built.value;
}

/** A memory at d12 … h23, supplied and decoupled, address pins and /CE on the minus rail; /OE and /WE are left to the test. */
export const MEMORY = `
  B1 board-63
  PS1 bench-supply
  U1 eeprom-2kx8 d12
  C1 capacitor j12 -j9 farads=100n
  P1 wire PS1.+ +j1 red
  P2 wire PS1.- -j1 black
  P3 wire -j2 -a1 black
  P4 wire +j10 i12 red
  P5 wire -a20 a23 black
  P6 wire -j14 i18 black
  P7 wire -a11 a12 black
  P8 wire -a12 a13 black
  P9 wire -a13 a14 black
  P10 wire -a14 a15 black
  P11 wire -a15 a16 black
  P12 wire -a16 a17 black
  P13 wire -j11 i13 black
  P14 wire -j12 i14 black
  P15 wire -j15 i17 black
  PS1 hands 1
`;

/** LED D1 on data pin D0 (row 20) through 330 Ω. */
export const LED_ON_D0 = `
  D1 led c40 c41 colour=red
  R1 resistor a41 -a35 ohms=330
  L1 wire b20 a40 green
`;

/** For MEMORY: /OE on the one-pole switch S2, open (10 kΩ keep it high; closed pulls it low); A1 and all data pins on minus. A0 (row 19) is free for a wire. */
export const READY_TO_WRITE = `
  S2 dip-switch e2 poles=1
  S2 hands 0
  L30 wire a2 -a2 black
  L31 wire g2 i16 yellow
  R30 resistor j16 +j12 ohms=10k
  L18 wire a18 -a17 black
  L50 wire c20 -a21 blue
  L51 wire c21 -a22 blue
  L52 wire c22 -a23 blue
  L53 wire i23 -j20 blue
  L54 wire i22 -j19 blue
  L55 wire i21 -j18 blue
  L56 wire i20 -j17 blue
  L57 wire i19 -j16 blue
`;

/** A write network on /WE (row 15): 680 Ω to plus, 1 nF to the button's node (row 5), bleeder across it; the button goes to minus. */
export const writeNetwork = (ohms = '680', farads = '1n') => `
  R20 resistor j15 +j13 ohms=${ohms}
  C20 capacitor i15 g5 farads=${farads}
  R21 resistor g15 h5 ohms=10k
  SB1 push-button e5
  L20 wire d7 -a6 black
`;
