/** Two memories on two boards, wired by hand and not by the builder: shared inputs, the two address wires of the second one crossed, no write button. */
import { planOf } from './bench.ts';

export const TWO_BY_HAND = planOf(`
lampwright-text 2
title Two memories by hand
board-63 B1 @0,0
board-63 B2 @0,21
bench-supply PS1 at @-16,1
eeprom-2kx8 U1 at d3
eeprom-2kx8 U2 at B2:d3
dip-switch S1 at e30 with poles 2 called "inputs"
wire W1 red from PS1.+ to +j1
wire W2 black from PS1.- to -j1
wire W3 red from +j48 to +a48
wire W4 black from -j48 to -a48
wire W5 red from +a50 to B2:+j50
wire W6 black from -a50 to B2:-j50
wire W7 red from B2:+j48 to B2:+a48
wire W8 black from B2:-j48 to B2:-a48
wire W9 grey from -a5 to a8
wire W10 grey from -a4 to a7
wire W11 grey from -a3 to a6
wire W12 grey from -a2 to a5
wire W13 grey from -a1 to a4
wire W14 grey from -a6 to a3
wire W15 grey from -j2 to j4
wire W16 grey from -j3 to j5
wire W17 grey from -j5 to j8
wire W18 grey from -j6 to j9
wire W19 grey from -j4 to j7
wire W20 black from -a10 to a14
wire W21 red from +j2 to j3
wire W22 red from +j4 to j6
capacitor C1 100n from i3 to -j7
wire W23 grey from B2:-a5 to B2:a8
wire W24 grey from B2:-a4 to B2:a7
wire W25 grey from B2:-a3 to B2:a6
wire W26 grey from B2:-a2 to B2:a5
wire W27 grey from B2:-a1 to B2:a4
wire W28 grey from B2:-a6 to B2:a3
wire W29 grey from B2:-j2 to B2:j4
wire W30 grey from B2:-j3 to B2:j5
wire W31 grey from B2:-j5 to B2:j8
wire W32 grey from B2:-j6 to B2:j9
wire W33 grey from B2:-j4 to B2:j7
wire W34 black from B2:-a10 to B2:a14
wire W35 red from B2:+j2 to B2:j3
wire W36 red from B2:+j4 to B2:j6
capacitor C2 100n from B2:i3 to B2:-j7
wire W37 red from +a24 to a30
resistor R1 10k from j30 to -j24
wire W38 red from +a25 to a31
resistor R2 10k from j31 to -j25
wire W39 orange from i30 to a10
wire W40 yellow from i31 to a9
wire W41 orange from b10 to B2:a9
wire W42 yellow from b9 to B2:a10
led LED1 red from f40 to e40 called "either"
resistor R11 1k from a40 to -a32
wire W43 green from a11 to j40
led LED2 red from f43 to e43 called "both"
resistor R12 1k from a43 to -a35
wire W44 green from a12 to j43
led LED3 red from B2:f40 to B2:e40 called "first"
resistor R13 1k from B2:a40 to B2:-a32
wire W45 green from B2:a11 to B2:j40
wanted input x at U1.A0
wanted input y at U1.A1
wanted output either at U1.D0
wanted output both at U1.D1
wanted output first at U2.D0
wanted rows 00 05 01 06
`);
