/** A chip whose outputs together source, or sink, more than its supply pins may carry for long. */

import { inAmps, its, type Ref, say } from '../../../sentence/wording.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly chip: Ref;
  /** the supply pin that carries it */
  readonly through: Ref;
  /** of all outputs together, and what that pin may carry [A] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
  /** how many outputs, and what each may have then [A] */
  readonly outputs: number;
  readonly share: number;
  readonly way: 'source' | 'sink';
}

export const packageOverCurrent = defineRule<Data>({
  code: 'chip/package-over-current',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.chips.flatMap((chip) => {
      const out = chip.outputs.map((o) => -scene.amps(o.device));
      const { value: limit, source } = chip.spec.mostPackageCurrent;
      return ([1, -1] as const).flatMap((sign): readonly Data[] => {
        const busy = out.filter((amps) => sign * amps > 1e-4);
        const measured = Math.abs(busy.reduce((sum, amps) => sum + amps, 0));
        if (measured <= limit) return [];
        const through = toPin((sign > 0 ? chip.supply : chip.ground).leg);
        const outputs = busy.length;
        return [
          {
            chip: toPart(chip.placed),
            through,
            measured,
            limit,
            source,
            outputs,
            share: limit / outputs,
            way: sign > 0 ? 'source' : 'sink',
          },
        ];
      });
    }),
  message: ({ chip, through, measured, limit, outputs, share, way }) =>
    say`The outputs of ${chip} ${way} ${inAmps(measured)} together through ${its(through)} (limit ${inAmps(limit)}). Use larger resistors: at most ${inAmps(share)} for each of the ${outputs}.`,
});

/** Eight LEDs on the data pins, through so many ohms each. */
const leds = (ohms: number) =>
  [20, 21, 22]
    .map((row, i) => `led LED${i} from b${row} to b${30 + 3 * i}\nresistor R${i} ${ohms} from a${30 + 3 * i} to -a${20 + i}`)
    .concat(
      [23, 22, 21, 20, 19].map(
        (row, i) => `led LED${3 + i} from i${row} to i${30 + 3 * i}\nresistor R${3 + i} ${ohms} from j${30 + 3 * i} to -j${20 + i}`,
      ),
    )
    .join('\n');

export const packageOverCurrentExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench(`wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n${leds(150)}`) },
  good: { bench: memoryBench(`wire WOE from j16 to -j9\nwire WWE from j15 to +j9\n${leds(330)}`) },
});
