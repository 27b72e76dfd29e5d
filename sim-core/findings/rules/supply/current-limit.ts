/** A supply that is asked for more than its current limit, and what takes most of it. */
import { FED } from '../../example-benches.ts';
import { toPart } from '../../refs.ts';
import { defineRule } from '../../rule.ts';
import { heatOf } from '../../rule-context.ts';

/** What turns this share of the supply's power into heat is named. */
const SHARE = 0.25;

export const currentLimit = defineRule({
  code: 'supply/current-limit',
  severity: 'damage-risk',
  reads: 'moment',
  look: (scene) =>
    scene.readings.supplies
      .filter((s) => s.limiting)
      .flatMap((reading) => {
        const { circuit } = scene;
        const site = circuit.supplyById.get(reading.part);
        if (!site) return [];
        const { amps: limit, volts } = circuit.network.supplyOf(site.device);
        const joined = circuit.netOf(site.plus) === circuit.netOf(site.minus);
        const parts = [...heatOf(scene)]
          .filter(([, watts]) => watts > SHARE * reading.volts * reading.amps)
          .sort(([, a], [, b]) => b - a)
          .map(([placed]) => placed);
        // the wire that closed the circle: the last one in the plan of those on the net
        const wire = joined ? circuit.netOf(site.plus).ends.at(-1)?.wire.id : undefined;
        return [
          {
            at: [toPart(site.placed), ...(wire === undefined ? [] : [{ kind: 'wire', id: wire } as const]), ...parts.map(toPart)],
            data: { measured: reading.amps, limit, set: volts, volts: reading.volts, joined: joined ? 'yes' : 'no' },
          },
        ];
      }),
  bad: { points: 'PS1', bench: `${FED}\nR1 resistor a10 a15 ohms=1\nW1 wire b10 -j5\nW2 wire b15 +j5` },
  good: { bench: `${FED}\nR1 resistor a10 a15 ohms=1k\nW1 wire b10 -j5\nW2 wire b15 +j5` },
});
