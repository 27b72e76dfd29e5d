/** What each rule says on its benches, by its code: in the order in which tests/unit/rule-sentences.test.ts plays them, each sentence once. */
export const SENTENCES: Readonly<Record<string, readonly string[]>> = {
  'bench/only-as-printed': [
    'LED1 is lit with parts as printed only: 1.44 mA, but 864 µA with all parts at their extremes (an LED looks lit from 1 mA). Use a smaller series resistor.',
  ],
  'bench/oscillates': [
    'Memory U1 drives itself in a loop that never rests: the period is 300 ns, set by its own delay. Break the loop from output to input.',
  ],
  'board/rail-half-not-connected': [
    'The right half of rail +j on board B1 is in use but not connected to a supply: only the other half is. Connect +j26 and +j25 with a wire.',
    'The left half of rail +j on board B1 is in use but not connected to a supply: only the other half is. Connect +j25 and +j26 with a wire.',
    'The right half of rail +j on board B1 is in use but not connected to a supply: only the other half is. Connect +j27 and +j25 with a wire.',
  ],
  'board/rail-not-connected': [
    'Rail −a on board B1 is not connected to a supply, but LED1 uses it. Wire the − terminal of PS1 to it.',
    'Rail +a on board B1 is not connected to a supply, but resistor R1 and resistor R2 use it. Wire the + terminal of PS1 to it.',
    'Rail −a on board B1 is not connected to a supply, but LED1 and resistor R9 use it. Wire the − terminal of PS1 to it.',
    'Rail +a on board B1 is not connected to a supply, but resistor R1 uses it. Wire the + terminal of PS1 to it.',
    'Rail +a on board B1 is not connected to a supply, but resistor R1 and 3 more parts use it. Wire the + terminal of PS1 to it.',
    'Rail +a on board B1 is not connected to a supply, but resistor R1, resistor R2 and resistor R3 use it. Wire the + terminal of PS1 to it.',
  ],
  'capacitor/over-voltage': [
    'Electrolytic capacitor C1 has 12 V across it (rated 10 V). Use one with a higher rating, or lower the supply.',
  ],
  'capacitor/reversed': [
    'Electrolytic capacitor C1 is reversed: 5 V across it the wrong way (limit 1 V), and it may burst. Switch off and swap its legs.',
  ],
  'chip/enable-wrong-rail': [
    'U1 pin 20 (/OE) is tied high: 5 V (low is up to 0.8 V), so its pin 13 (D3) is high-impedance (Z) whatever the switches. Wire it to −.',
  ],
  'chip/no-decoupling': [
    'Memory U1 has no decoupling capacitor between its pin 24 (VCC) and its pin 12 (GND) (at least 10 nF). Add 100 nF close to the chip.',
    'The decoupling capacitor nearest to memory U1, ceramic capacitor C8, is 70.8 mm from its pins (at most 25.4 mm). Add 100 nF close to the chip.',
    'Memory U1 has only 9 nF between its pin 24 (VCC) and its pin 12 (GND) (at least 10 nF). Add 100 nF close to the chip.',
  ],
  'chip/no-supply': [
    'Memory U1 has no supply: its pin 24 (VCC) is not connected (needs 4.5 to 5.5 V). Wire it to the + rail.',
    'Memory U1 has no supply: its pin 12 (GND) is not connected (needs 4.5 to 5.5 V). Wire it to the − rail.',
    'Memory U1 has no supply: its pin 24 (VCC) and its pin 12 (GND) are not connected (needs 4.5 to 5.5 V). Wire them to the + rail and the − rail.',
  ],
  'chip/package-over-current': [
    'The outputs of memory U1 source 85.3 mA together through its pin 24 (VCC) (limit 60 mA). Use larger resistors: at most 7.5 mA for each of the 8.',
  ],
  'chip/supply-dip': [
    'The supply of memory U1 dipped to 0.718 V at its pin 24 (VCC) for 4.92 ns (at least 4.5 V). Add 100 nF between there and its pin 12 (GND), close to the chip, and use shorter supply wires.',
  ],
  'chip/supply-out-of-range': [
    'Memory U1 has 4 V at its pin 24 (VCC) (range 4.5 to 5.5 V). Set the supply to 5 V and check what loads it.',
    'Memory U1 has 3 V at its pin 24 (VCC) (range 4.5 to 5.5 V). Set the supply to 5 V and check what loads it.',
    'Memory U1 has 6 V at its pin 24 (VCC) (range 4.5 to 5.5 V). Set the supply to 5 V.',
    'Memory U1 has 7 V at its pin 24 (VCC) (range 4.5 to 5.5 V). Set the supply to 5 V.',
    'Memory U1 has 8 V at its pin 24 (VCC) (range 4.5 to 5.5 V; above 7 V it may be destroyed). Set the supply to 5 V.',
    'Memory U1 has 1 V at its pin 24 (VCC) (range 4.5 to 5.5 V). Set the supply to 5 V and check what loads it.',
  ],
  'chip/supply-reversed': [
    'The supply of memory U1 is reversed: its pin 24 (VCC) is on − and its pin 12 (GND) on +, −5 V (limit 0 V). Switch off and swap the two.',
    'The supply of memory U1 is reversed: its pin 24 (VCC) is on − of a 5 V supply. Switch off and wire it to +.',
    'The supply of memory U1 is reversed: its pin 12 (GND) is on + of a 5 V supply. Switch off and wire it to −.',
    'The supply of memory U1 is reversed: its pin 12 (GND) is on + of a 3 V supply. Switch off and wire it to −.',
  ],
  'coil/flyback-diode-reversed': [
    'Silicon diode D1 across relay K1 is reversed: when the contact at S9 pin 1 closes, it shorts supply PS1, up to 500 mA (limit 200 mA). Swap its legs.',
  ],
  'coil/between-currents': [
    'Relay K1 may be operated or released: its winding carries 24 mA, and it operates for certain from 30 mA and releases for certain below 4 mA. Give its winding the voltage that it is made for, or none.',
  ],
  'coil/own-contact': [
    'Relay K1 breaks its own current: its winding is fed through its closed contact at K1 pin 6 (NC1), which opens as it operates, so it operates and releases again and again and wears its contacts out. Feed the winding past that contact.',
  ],
  'memory/bounce-writes-again': [
    'One press of push button S9 can write several times: its contact bounces for up to 6.2 ms, resistor RC discharges the capacitor in 100 µs (time constant), and each bounce pulls U1 pin 21 (/WE) down to 0 V (high from 2 V). Use 8.2 MΩ or more.',
    'One press of push button S9 can write several times: its contact bounces for up to 6.2 ms, resistor RC discharges the capacitor in 33 µs (time constant), and each bounce pulls U1 pin 21 (/WE) down to 0 V (high from 2 V). Use a larger capacitor with a smaller pull-up resistor, and a larger discharge resistor.',
    'One press of push button S9 can write several times: its contact bounces for up to 6.2 ms, resistor RC discharges the capacitor in 400 µs (time constant), and each bounce pulls U1 pin 21 (/WE) down to 0 V (high from 2 V). Use 2.2 MΩ or more.',
  ],
  'coil/no-flyback-diode': [
    'Relay K1 has no flyback diode: when Q1 pin 3 (collector) switches off, 40 mA have no path and drive it to 60 V (limit 40 V). Add a diode across relay K1, cathode at plus.',
  ],
  'memory/press-writes-nothing': [
    'Pressing push button S9 writes nothing: nothing discharges ceramic capacitor CW, which keeps 4.99 V, so U1 pin 21 (/WE) does not fall to a low level (up to 0.8 V). Put a resistor across ceramic capacitor CW.',
  ],
  'memory/level-no-pulse': [
    'Memory U1 gets a level instead of a write pulse: its write enable was low for 100 ms, as long as the button was held (its data sheet gives at most 1 µs; other sheets give no maximum). Put a capacitor between the button and the pin, with a resistor that discharges it.',
  ],
  'switch/bounces-on-clock': [
    'One press of push button S9 moves U1 pin 2 (CP) 6 times (should be once), and 4-bit counter U1 takes each: its contact bounces for up to 6.2 ms. Debounce it: a resistor and a capacitor with a time constant above 6.2 ms, and a Schmitt input behind them.',
  ],
  'memory/write-enable-low': [
    'U1 pin 21 (/WE) is tied low: 0 V (high from 2 V), so the outputs of memory U1 are always high-impedance (Z). Wire it to +, or pull it up so that a button can pull it low.',
  ],
  'switch/both-sides-one-net': [
    'Pole 1 of DIP switch S1 switches nothing: wire W2 and wire W3 join its two sides (0 Ω while it is open; an open contact has at least 100 MΩ). Remove wire W2 or wire W3, or move one end.',
  ],
  'input/between-levels': [
    'U1 pin 5 (A3) is at 1.35 V, undefined (X): low is up to 0.8 V, high from 2 V. Find what pulls it up and what pulls it down, and weaken one with a larger resistor.',
    'U1 pin 5 (A3) is at 1 V, undefined (X): low is up to 0.8 V, high from 2 V. Find what pulls it up and what pulls it down, and weaken one with a larger resistor.',
    'U1 pin 5 (A3) is at 1.79 V, undefined (X): low is up to 0.8 V, high from 2 V. Find what pulls it up and what pulls it down, and weaken one with a larger resistor.',
  ],
  'input/floating': [
    'U1 pin 5 (A3) floats: not connected. Leakage of up to 10 µA can carry it past 0.8 V (limit 80 kΩ). Pull it up or down with 10 kΩ: leakage then moves it by 0.1 V at most.',
    'U1 pin 5 (A3) floats: only 82 kΩ pulls it. Leakage of up to 10 µA can carry it past 0.8 V (limit 80 kΩ). Pull it up or down with 10 kΩ: leakage then moves it by 0.1 V at most.',
  ],
  'input/unused-open': [
    'Quad 2-input NAND gate U1 has unused gates with open inputs: U1 pin 4 (2A), U1 pin 5 (2B), U1 pin 9 (3A), U1 pin 10 (3B), U1 pin 12 (4A) and U1 pin 13 (4B). A floating input picks up noise, and its gate may switch at random. Wire each to + or −.',
  ],
  'led/dim': ['LED1 is dim: 331 µA (looks lit from 1 mA). Use a smaller series resistor, or find what else takes its current.'],
  'led/current-not-guaranteed': [
    'Memory U1 lights LED1 with typical outputs only: 6.85 mA, but its data sheet guarantees 616 µA (an LED looks lit from 1 mA). Add a buffer, or let the output sink the LED’s current instead of sourcing it.',
  ],
  'led/no-series-resistor': [
    'LED1 has no series resistor from the + terminal of PS1 to the − terminal of PS1 (at least 50 Ω). Add 330 Ω in series: 10 mA at most.',
    'LED2 has no series resistor from the + terminal of PS1 to the − terminal of PS1 (at least 50 Ω). Add 330 Ω in series: 10 mA at most.',
    'LED1 has only 39.1 Ω in series from the + terminal of PS1 to the − terminal of PS1 (at least 50 Ω). Add 330 Ω in series: 10 mA at most.',
    'LED1 has no series resistor from U1 pin 13 (D3) to the − terminal of PS1 (at least 50 Ω). Add 330 Ω in series: 10 mA at most.',
    'LED1 has no series resistor from the + terminal of PS1 to U1 pin 13 (D3) (at least 50 Ω). Add 330 Ω in series: 10 mA at most.',
    'LED2 has no series resistor from U1 pin 13 (D3) to the − terminal of PS1 (at least 50 Ω). Add 330 Ω in series: 10 mA at most.',
    'LED1 has no series resistor from U1 pin 13 (D3) to U1 pin 14 (D4) (at least 50 Ω). Add 330 Ω in series: 10 mA at most.',
  ],
  'led/over-current': [
    'LED1 draws 42.5 mA (limit 30 mA). Use at least 100 Ω in series.',
    'LED1 draws 126 mA (limit 30 mA). Use at least 100 Ω in series.',
    'LED2 draws 126 mA (limit 30 mA). Use at least 100 Ω in series.',
    'LED1 draws 70.4 mA (limit 30 mA). Use at least 100 Ω in series.',
    'LED1 draws 66 mA (limit 30 mA). Use at least 820 Ω in series.',
    'LED1 draws 33.4 mA (limit 30 mA). Use at least 100 Ω in series.',
  ],
  'led/reverse-over-voltage': ['LED1 has 9 V of reverse voltage (limit 5 V). Reverse it, or lower the supply.'],
  'led/reversed': ['LED1 is reversed: current can reach the cathode of LED1, but must enter at the anode of LED1. Swap its legs.'],
  'memory/cell-worn': [
    'Memory U1: the cell at address 0x000 has been written 10 001 times (rated for 10 000). It holds 5A now, but may lose it early. Use another address, or a new memory.',
  ],
  'memory/not-erased': [
    'Memory U1: byte 5A needs a 1 at address 0x000 where a 0 is stored, and a pulse only turns 1 into 0. Erase it under UV light, then program it.',
  ],
  'memory/pulse-not-guaranteed': [
    'Memory U1: the guaranteed width of the write pulse from push button S9 is 115 ns nominal, but 87.3 ns in the worst case (at least 100 ns). The largest contribution is ceramic capacitor CW at 900 pF. Use a capacitor 1.1 times larger, or a larger resistor.',
  ],
  'memory/write-ignored': [
    'Memory U1 ignored a write at address 0x000: /OE was low, and must be high throughout the pulse. Set /OE high and press again.',
  ],
  'memory/write-pulse-long': [
    'Memory U1: the maximum width of the write pulse is 3.48 µs (its data sheet gives at most 1 µs; other sheets give no maximum). Use a capacitor 3.5 times smaller, or a smaller resistor.',
    'Memory U1: the maximum width of the write pulse is 1.39 µs (its data sheet gives at most 1 µs; other sheets give no maximum). Use a capacitor 1.4 times smaller, or a smaller resistor.',
  ],
  'memory/write-pulse-short': [
    'Memory U1: the guaranteed width of the write pulse is 35.7 ns (at least 100 ns), so byte 5A at address 0x000 is undefined (X). Use a capacitor 2.8 times larger, or a larger resistor, and write again.',
  ],
  'memory/setup-or-hold': [
    'Memory U1: the address hold time was 25.8 ns (at least 50 ns), so byte 5A at address 0x001 may have gone to another address. Keep the address until the button is released.',
  ],
  'memory/write-undefined': [
    'Memory U1: the data at address 0x000 was undefined (X), 5?, and so are those bits. Drive every data pin low or high, then write again.',
  ],
  'net/bus-contention': [
    'Bus contention: U1 pin 9 (D0) drives high against U1 pin 10 (D1), 17.9 mA (limit 10 mA) at 0.816 V. Move or remove wire WF.',
    'Bus contention: U2 pin 18 (1Y1) drives high against U1 pin 9 (D0), 33.7 mA (limit 10 mA) at 3.08 V. Move or remove wire V5.',
    'Contention: U1 pin 9 (D0) drives high against the − terminal of PS1, 18.7 mA (limit 10 mA). Move or remove wire WD.',
    'Contention: U1 pin 9 (D0) drives low against the + terminal of PS1, 36 mA (limit 10 mA). Move or remove wire WD.',
    'Contention: U1 pin 9 (D0) drives low against the + terminal of PS1, 36 mA (limit 10 mA). Set the output high-impedance (Z) before you connect it to a rail, or connect it through 1 kΩ.',
    'Bus contention: U2 pin 9 (D0) drives high against U1 pin 9 (D0), 17.9 mA (limit 10 mA) at 0.816 V. Move or remove wire WD.',
  ],
  'part/both-legs-in-one-row': [
    'Resistor R1 has both legs in one row: the board shorts it. Move one leg to another row.',
    'DIP switch S1 has pins 1 and 4 in one row: the board shorts them (2 such pairs). Place it across the centre gap.',
    'Ceramic capacitor C8 has both legs in one row: the board shorts it. Move one leg to another row.',
  ],
  'part/damaged': ['Octal buffer U1 is damaged: it was supplied with 9 V (limit 7 V). Remove the cause, then replace it.'],
  'part/not-connected-yet': [
    'Resistor R1 is not connected yet: nothing else is in the rows of its legs. Wire it, or remove it.',
    'Resistor R1 is not connected yet.',
  ],
  'part/leg-not-connected': [
    'R1 leg 1 is not connected: b10 has nothing else in its row. Move it, or a wire, to the right row.',
    'R2 leg 1 is not connected: b12 has nothing else in its row. Move it, or a wire, to the right row.',
    'R1 leg 1 is not connected: b10 has only wire W2 in its row, and it connects to nothing. Move a wire, or the leg, to the right row.',
  ],
  'pin/level-not-guaranteed': [
    'U1 pin 9 (D0) guarantees a high of only 2.4 V, and U2 pin 2 (1A1) needs 3.5 V: it works with typical outputs only. Use a receiving chip with TTL levels, or pull the pin up with 10 kΩ.',
  ],
  'pin/over-current': [
    'LED1 draws 16.1 mA from U1 pin 13 (D3) (limit 10 mA). Use at least 330 Ω in series.',
    'LED1 draws 33.4 mA from U1 pin 13 (D3) (limit 10 mA). Use at least 330 Ω in series.',
    'LED1 and LED2 draw 16.3 mA from U1 pin 13 (D3) (limit 10 mA). Use at least 680 Ω in series with each.',
    'LED1 draws 14.5 mA from U1 pin 13 (D3) (limit 10 mA). Use at least 330 Ω in series.',
    'LED1 draws 14.5 mA from U1 pin 14 (D4) (limit 10 mA). Use at least 330 Ω in series.',
    'U1 pin 9 (D0) sources 16.7 mA (limit 10 mA). Use at least 560 Ω in series with its load.',
    'U1 pin 9 (D0) sinks 30 mA (limit 10 mA). Use at least 560 Ω in series with its load.',
  ],
  'pin/over-voltage': [
    'U1 pin 8 (A0) is at 8.99 V, above the chip’s supply of 5.01 V: 135 mA through its clamp diode (limit 20 mA). Wire it to the chip’s own supply, or put 4.7 kΩ in series.',
    'U1 pin 21 (/WE) is at 5 V, above the chip’s supply of 3.78 V: 24.7 mA through its clamp diode (limit 20 mA) where the chip draws the most that its sheet allows. Wire it to the chip’s own supply, or put 1.5 kΩ in series.',
    'U1 pin 21 (/WE) is at 4.37 V, above the chip’s supply of 3.23 V: 21.4 mA through its clamp diode (limit 20 mA) where the chip draws the most that its sheet allows. Wire it to the chip’s own supply, or put 1.2 kΩ in series.',
    'U1 pin 21 (/WE) is at 4.98 V, above the chip’s supply of 0 V: 175 mA through its clamp diode (limit 20 mA). Wire it to the chip’s own supply, or put 5.6 kΩ in series.',
    'U1 pin 8 (A0) is at 6.19 V, above the chip’s supply of 5 V: 23.4 mA through its clamp diode (limit 20 mA). Wire it to the chip’s own supply, or put 1.2 kΩ in series.',
    'U1 pin 8 (A0) is at −2.99 V, below ground: 95.6 mA through its clamp diode (limit 20 mA). Wire it to the chip’s own supply, or put 3.3 kΩ in series.',
    'U1 pin 22 (A9) is at 14 V (limit 13.5 V) and may break down. Lower that voltage.',
  ],
  'part/over-power': [
    'Resistor R1 dissipates 530 mW (limit 250 mW). Use a larger value, or share the load between several.',
    'Resistor R1 dissipates 1.44 W (limit 250 mW). Use a larger value, or share the load between several.',
  ],
  'supply/current-limit': [
    'Supply PS1 is at its current limit: 500 mA (limit 500 mA), and only 0.5 V of 5 V is left. Switch off and check resistor R1.',
    'Supply PS1 is shorted by wires: 500 mA (limit 500 mA) at 0 V. Switch off and remove wire WS.',
    'Supply PS1 is at its current limit: 500 mA (limit 500 mA), and only 0.601 V of 5 V is left. Switch off and check resistor R1 and resistor R2.',
    'Supply PS1 is shorted by wires: 500 mA (limit 500 mA) at 0 V. Switch off and remove wire W1 or wire W2.',
  ],
  'supply/grounds-not-connected': [
    'Supply PS2 and supply PS1 have no common ground: no current returns from one to the other, and a level of one means nothing to the other. Connect the − terminal of PS2 and the − terminal of PS1 with a wire.',
  ],
  'switch/one-side-only': [
    'Push button S1 is wired at its pin 1 and its pin 4, which are connected inside it: pressing changes nothing. Move one of the two to the row of its pin 2.',
    'Push button S1 is wired at its pin 2 and its pin 3, which are connected inside it: pressing changes nothing. Move one of the two to the row of its pin 1.',
  ],
  'switch/pole-shorts-supply': [
    'Closing pole 1 of DIP switch S1 shorts supply PS1: 500 mA (limit 500 mA). Wire one side elsewhere, or put 10 kΩ in series.',
    'Closing pole 2 of DIP switch S1 shorts supply PS1: 500 mA (limit 500 mA). Wire one side elsewhere, or put 10 kΩ in series.',
    'Pressing push button S1 shorts supply PS1: 500 mA (limit 500 mA). Wire one side elsewhere, or put 10 kΩ in series.',
    'Pressing push button S1 shorts supply PS1: 100 mA (limit 100 mA). Wire one side elsewhere, or put 10 kΩ in series.',
  ],
};
