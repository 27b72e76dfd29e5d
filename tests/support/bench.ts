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
  board-63 B1
  bench-supply PS1
  eeprom-2kx8 U1 at d12
  capacitor C1 100n from j12 to -j9
  wire P1 red from PS1.+ to +j1
  wire P2 black from PS1.- to -j1
  wire P3 black from -j2 to -a1
  wire P4 red from +j10 to i12
  wire P5 black from -a20 to a23
  wire P6 black from -j14 to i18
  wire P7 black from -a11 to a12
  wire P8 black from -a12 to a13
  wire P9 black from -a13 to a14
  wire P10 black from -a14 to a15
  wire P11 black from -a15 to a16
  wire P12 black from -a16 to a17
  wire P13 black from -j11 to i13
  wire P14 black from -j12 to i14
  wire P15 black from -j15 to i17
  switch PS1 set 1
`;

/** LED1 on data pin D0 (row 20) through 330 Ω. */
export const LED_ON_D0 = `
  led LED1 red from c40 to c41
  resistor R1 330 from a41 to -a35
  wire L1 green from b20 to a40
`;

/** For MEMORY, which holds FF at 0 and 00 at 1: it reads, and A0 (row 19) is high by 10 kΩ until S3 pulls it low. */
export const READ_BY_S3 = `
  wire LB black from a18 to -a17
  wire LO black from i16 to -j20
  wire LW red from i15 to +j20
  dip-switch S3 at e30 with poles 1
  wire L32 black from a30 to -a30
  wire L33 yellow from g30 to a19
  resistor R33 10k from b19 to h33
  wire L34 red from j33 to +j18
  memory U1 000 FF00
`;

/** For MEMORY: /OE on the one-pole switch S2, open (10 kΩ keep it high; closed pulls it low); A1 and all data pins on minus. A0 (row 19) is free for a wire. */
export const READY_TO_WRITE = `
  dip-switch S2 at e2 with poles 1
  switch S2 set 0
  wire L30 black from a2 to -a2
  wire L31 yellow from g2 to i16
  resistor R30 10k from j16 to +j12
  wire L18 black from a18 to -a17
  wire L50 blue from c20 to -a21
  wire L51 blue from c21 to -a22
  wire L52 blue from c22 to -a23
  wire L53 blue from i23 to -j20
  wire L54 blue from i22 to -j19
  wire L55 blue from i21 to -j18
  wire L56 blue from i20 to -j17
  wire L57 blue from i19 to -j16
`;

/** A write network on /WE (row 15): 680 Ω to plus, 1 nF to the button's node (row 5), bleeder across it; the button goes to minus. */
export const writeNetwork = (ohms = '680', farads = '1n') => `
  resistor R20 ${ohms} from j15 to +j13
  capacitor C20 ${farads} from i15 to g5
  resistor R21 10k from g15 to h5
  push-button SB1 at e5
  wire L20 black from d7 to -a6
`;

/** A 20-pin logic chip U2 at e40, supplied and decoupled; its inputs are left to the test. */
export const logicChip = (kind: 'octal-buffer' | 'octal-register'): string => `
  board-63 B1
  bench-supply PS1
  switch PS1 set 1
  wire P1 red from PS1.+ to +j1
  wire P2 black from PS1.- to -j1
  wire P3 black from -j2 to -a1
  ${kind} U2 at e40
  capacitor C2 100n from i40 to i37
  wire WC2 from j37 to -j30
  wire WV2 from j40 to +j30
  wire WG2 from a49 to -a40
`;
