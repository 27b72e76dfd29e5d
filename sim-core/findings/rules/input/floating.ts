/** An input that is not driven: its worst-case leakage, through the resistance that the rest of the bench shows it, can carry it past its level. */

import { pull } from '../../../fixes/pull-resistor.ts';
import { thresholdsOf } from '../../../parts/part.ts';
import { inAmps, inOhms, inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { leakageOn } from '../../../tolerance/at-rest.ts';
import { countsAsHigh, servesNothing, unheldInputs } from '../../driven-inputs.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPin } from '../../rule.ts';

/** The usual pull-up or pull-down [Ω]: common practice, no source. */
const USUAL = 10e3;
/** Above this resistance a net counts as not connected [Ω]. */
const NOTHING = 1e9;

interface Data {
  readonly pin: Ref;
  /** what pulls it, and the most that would hold it [Ω] */
  readonly measured: number;
  readonly limit: number;
  /** of all pins on its net [A] */
  readonly leakage: number;
  /** its voltage and its levels [V] */
  readonly volts: number;
  readonly vil: number;
  readonly vih: number;
  /** a resistor that holds it [Ω], and how far leakage moves it then [V] */
  readonly cure: number;
  readonly drift: number;
  /** it counts as high where it rests */
  readonly high: boolean;
}

export const inputFloating = defineRule<Data>({
  code: 'input/floating',
  severity: 'fault',
  reads: 'moment',
  look: (scene) =>
    unheldInputs(scene)
      .filter(({ chip, pin }) => !servesNothing(scene.circuit, chip, pin))
      .map(({ chip, pin, reading, net }) => {
        const leakage = leakageOn(scene.circuit, net, 1);
        const { vil, vih } = thresholdsOf(pin.figures, scene.chip(chip.placed.part.id)?.supply ?? 0);
        const limit = vil / leakage;
        const cure = Math.min(USUAL, limit);
        const measured = scene.readings.nets[net]?.ohms ?? 0;
        return {
          pin: toPin(pin.leg),
          measured,
          limit,
          leakage,
          volts: reading.volts,
          vil,
          vih,
          cure,
          drift: cure * leakage,
          high: countsAsHigh(pin, reading),
        };
      }),
  message: ({ pin, measured, limit, leakage, volts, vil, vih, cure, drift, high }) =>
    high
      ? say`${pin} floats. It rests at ${inVolts(volts)} and counts as high, but a high is guaranteed only from ${inVolts(vih)}: noise can make it low. Pull it up with ${inOhms(USUAL)} or down with ${inOhms(cure)}.`
      : say`${pin} floats: ${measured > NOTHING ? 'not connected' : `only ${inOhms(measured)} pulls it`}. Leakage of up to ${inAmps(leakage)} can carry it past ${inVolts(vil)} (limit ${inOhms(limit)}). Pull it up or down with ${inOhms(cure)}: leakage then moves it by ${inVolts(drift)} at most.`,
  // only a person knows which of the two was meant: what it reads already, or else low, which is asked for more often, comes first
  fixes({ pin, cure, high }, bench) {
    const [down, up] = [pull(bench, pin, 'down', cure), pull(bench, pin, 'up', high ? USUAL : cure)];
    return high ? [...up, ...down] : [...down, ...up];
  },
});

export const inputFloatingExamples = (): RuleExamples => ({
  bad: { points: 'U1.5', bench: memoryBench('wire WWE from j15 to +j9\nwire WOE from j16 to -j9', 'WA3') },
  good: { bench: memoryBench('wire WWE from j15 to +j9\nwire WOE from j16 to -j9\nresistor R3 10k from a16 to -a20', 'WA3') },
});
