/** A capacitor with polarity that stands the wrong way round: it heats, gases and may burst. */
import { FED } from '../../example-benches.ts';
import { polarised } from '../../polarised.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

export const capacitorReversed = defineRule({
  code: 'capacitor/reversed',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    polarised(scene).flatMap(({ placed, plus, minus, volts, polar }) => {
      const { value: limit, source } = polar.mostReverse;
      return -volts > limit ? [{ at: [toPart(placed), toPin(plus), toPin(minus)], data: { measured: -volts, limit, source } }] : [];
    }),
  bad: { points: 'C1', bench: `${FED}\nC1 electrolytic a14 a10\nW1 wire c10 +j3\nW2 wire b14 -j3` },
  good: { bench: `${FED}\nC1 electrolytic a10 a14\nW1 wire c10 +j3\nW2 wire b14 -j3` },
});
