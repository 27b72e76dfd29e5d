/** A chip whose outputs together give, or take, more than its supply pins may carry for long. */
import { memoryBench } from '../../example-benches.ts';
import { toPart, toPin } from '../../refs.ts';
import { defineRule } from '../../rule.ts';

/** Eight LEDs on the data pins, through so many ohms each. */
const leds = (ohms: number) =>
  [20, 21, 22]
    .map((row, i) => `D${i} led b${row} b${30 + 3 * i}\nR${i} resistor a${30 + 3 * i} -a${20 + i} ohms=${ohms}`)
    .concat(
      [23, 22, 21, 20, 19].map(
        (row, i) => `D${3 + i} led i${row} i${30 + 3 * i}\nR${3 + i} resistor j${30 + 3 * i} -j${20 + i} ohms=${ohms}`,
      ),
    )
    .join('\n');

export const packageOverCurrent = defineRule({
  code: 'chip/package-over-current',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.chips.flatMap((chip) => {
      const out = chip.outputs.map((o) => -scene.amps(o.device));
      const { value: limit, source } = chip.spec.mostPackageCurrent;
      return ([1, -1] as const).flatMap((sign) => {
        const busy = out.filter((amps) => sign * amps > 1e-4);
        const measured = Math.abs(busy.reduce((sum, amps) => sum + amps, 0));
        if (measured <= limit) return [];
        const through = sign > 0 ? chip.supply : chip.ground;
        return [
          {
            at: [toPart(chip.placed), toPin(through.leg)],
            data: { measured, limit, source, outputs: busy.length, share: limit / busy.length, way: sign > 0 ? 'give' : 'take' },
          },
        ];
      });
    }),
  bad: { points: 'U1', bench: memoryBench(`WOE wire j16 -j9\nWWE wire j15 +j9\n${leds(150)}`) },
  good: { bench: memoryBench(`WOE wire j16 -j9\nWWE wire j15 +j9\n${leds(330)}`) },
});
