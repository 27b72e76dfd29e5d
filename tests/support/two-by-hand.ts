/** Two memories on two boards, wired by hand and not by the builder: shared inputs, the two address wires of the second one crossed, no write button. */
import { planOf } from './bench.ts';

export const TWO_BY_HAND = planOf(`
bench-text 1
title Two memories by hand
B1 board-63 @0,0
B2 board-63 @0,21
PS1 bench-supply @-16,1
U1 eeprom-2kx8 d3
U2 eeprom-2kx8 B2:d3
S1 dip-switch e30 poles=2 "inputs"
W1 wire PS1.+ +j1 red
W2 wire PS1.- -j1 black
W3 wire +j48 +a48 red
W4 wire -j48 -a48 black
W5 wire +a50 B2:+j50 red
W6 wire -a50 B2:-j50 black
W7 wire B2:+j48 B2:+a48 red
W8 wire B2:-j48 B2:-a48 black
W9 wire -a5 a8 grey
W10 wire -a4 a7 grey
W11 wire -a3 a6 grey
W12 wire -a2 a5 grey
W13 wire -a1 a4 grey
W14 wire -a6 a3 grey
W15 wire -j2 j4 grey
W16 wire -j3 j5 grey
W17 wire -j5 j8 grey
W18 wire -j6 j9 grey
W19 wire -j4 j7 grey
W20 wire -a10 a14 black
W21 wire +j2 j3 red
W22 wire +j4 j6 red
C1 capacitor i3 -j7 farads=100n
W23 wire B2:-a5 B2:a8 grey
W24 wire B2:-a4 B2:a7 grey
W25 wire B2:-a3 B2:a6 grey
W26 wire B2:-a2 B2:a5 grey
W27 wire B2:-a1 B2:a4 grey
W28 wire B2:-a6 B2:a3 grey
W29 wire B2:-j2 B2:j4 grey
W30 wire B2:-j3 B2:j5 grey
W31 wire B2:-j5 B2:j8 grey
W32 wire B2:-j6 B2:j9 grey
W33 wire B2:-j4 B2:j7 grey
W34 wire B2:-a10 B2:a14 black
W35 wire B2:+j2 B2:j3 red
W36 wire B2:+j4 B2:j6 red
C2 capacitor B2:i3 B2:-j7 farads=100n
W37 wire +a24 a30 red
R1 resistor j30 -j24 ohms=10k
W38 wire +a25 a31 red
R2 resistor j31 -j25 ohms=10k
W39 wire i30 a10 orange
W40 wire i31 a9 yellow
W41 wire b10 B2:a9 orange
W42 wire b9 B2:a10 yellow
D1 led f40 e40 colour=red "either"
R11 resistor a40 -a32 ohms=1k
W43 wire a11 j40 green
D2 led f43 e43 colour=red "both"
R12 resistor a43 -a35 ohms=1k
W44 wire a12 j43 green
D3 led B2:f40 B2:e40 colour=red "first"
R13 resistor B2:a40 B2:-a32 ohms=1k
W45 wire B2:a11 B2:j40 green
wanted input x U1.A0
wanted input y U1.A1
wanted output either U1.D0
wanted output both U1.D1
wanted output first U2.D0
wanted rows 00 05 01 06
`);
