/** A pin of a chip is dead inside, or bent under its package: nothing is connected behind it. */

import { toPin } from '../../findings/rule.ts';
import { defineFault } from '../fault.ts';
import { partRef } from '../fault-bench.ts';
import { burnt, withPartAs } from '../moved.ts';

export const pinDead = defineFault({
  kind: 'pin-dead',
  of: 'wiring',
  weight: 0.7,
  visible: 0.05,
  find: (bench) =>
    bench.circuit.chips.flatMap(({ placed, inputs, outputs }) => {
      const pins = new Map([...inputs, ...outputs].map((p) => [p.name, p.leg]));
      const isOutput = (name: string) => outputs.some((o) => o.name === name);
      return [...pins].map(([name, leg]) => ({
        ...withPartAs(bench, placed, { damaged: burnt(isOutput(name) ? 'output' : 'input', [name]) }, name),
        things: [toPin(leg), partRef(placed.part)],
        places: [toPin(leg)],
      }));
    }),
});
