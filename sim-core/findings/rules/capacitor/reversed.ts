/** A capacitor with polarity that is the wrong way round: it heats, gases and may burst. */
import { reversePart } from '../../../fixes/reverse-part.ts';
import { inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { polarised } from '../../polarised.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly part: Ref;
  readonly plus: Ref;
  readonly minus: Ref;
  /** minus against plus, and what it bears [V] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
}

export const capacitorReversed = defineRule<Data>({
  code: 'capacitor/reversed',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    polarised(scene).flatMap(({ placed, plus, minus, volts, polar }) => {
      const { value: limit, source } = polar.mostReverse;
      return -volts > limit ? [{ part: toPart(placed), plus: toPin(plus), minus: toPin(minus), measured: -volts, limit, source }] : [];
    }),
  message: ({ part, measured, limit }) =>
    say`${part} is reversed: ${inVolts(measured)} across it the wrong way (limit ${inVolts(limit)}), and it may burst. Switch off and swap its legs.`,
  fixes: ({ part }, bench) => reversePart(bench, part),
});

export const capacitorReversedExamples = (): RuleExamples => ({
  bad: { points: 'C1', bench: `${FED}\nelectrolytic C1 from a14 to a10\nwire W1 from c10 to +j3\nwire W2 from b14 to -j3` },
  good: { bench: `${FED}\nelectrolytic C1 from a10 to a14\nwire W1 from c10 to +j3\nwire W2 from b14 to -j3` },
});
