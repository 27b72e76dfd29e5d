/** A button whose bounce clocks a chip more than once: it counts or steps several times for one press. */

import { inSeconds, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly button: Ref;
  readonly pin: Ref;
  readonly chip: Ref;
  /** edges of one press, and how many there should be */
  readonly measured: number;
  readonly limit: number;
  /** the longest that such a contact bounces [s] */
  readonly bounce: number;
}

export const bouncesOnClock = defineRule<Data>({
  code: 'switch/bounces-on-clock',
  severity: 'fault',
  reads: 'press',
  apart: ({ pin }) => pin.id,
  look: ({ button, disturbed }) =>
    disturbed.map(({ chip, pin, times }) => ({
      button: toPart(button.placed),
      pin: toPin(pin.leg),
      chip: toPart(chip.placed),
      measured: times,
      limit: 1,
      bounce: button.contact.bounce.most,
    })),
  message: ({ button, pin, chip, measured, limit, bounce }) =>
    say`One press of ${button} moves ${pin} ${measured} times (should be ${limit === 1 ? 'once' : limit}), and ${chip} takes each: its contact bounces for up to ${inSeconds(bounce)}. Debounce it: a resistor and a capacitor with a time constant above ${inSeconds(bounce)}, and a Schmitt input behind them.`,
});

/** A counter that a button clocks; `clock` is between the button and the pin. */
const bench = (clock: string): string => `${FED}
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

/** 220 kΩ and 100 nF, 22 ms, and a Schmitt inverter. */
const debounced = `wire WC from a41 to a21
  resistor RB 10k from i52 to -j45
  resistor RF 220k from j52 to j56
  capacitor CF 100n from i56 to -j46
  schmitt-inverter U2 at e40
  wire WI from h56 to a40
  wire WJ from j40 to +j42
  wire WK from a46 to -j43`;

export const bouncesOnClockExamples = (): RuleExamples => ({
  bad: { points: 'S9', bench: bench('wire WC from j52 to a21\nresistor RB 10k from i52 to -j45') },
  good: { bench: bench(debounced) },
});
