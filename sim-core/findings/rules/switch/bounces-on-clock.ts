/** A button whose bounce clocks a chip more than once: it counts or steps several times for one press. */

import { inSeconds, type Ref, say } from '../../../sentence/wording.ts';
import { counterClocked, type RuleExamples } from '../../example-benches.ts';
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
  bad: { points: 'S9', bench: counterClocked('wire WC from j52 to a21\nresistor RB 10k from i52 to -j45') },
  good: { bench: counterClocked(debounced) },
});
