/** A supply that is asked for more than its current limit, and what takes most of it. */
import { FED } from '../example-benches.ts';
import { toPart } from '../refs.ts';
import { defineRule } from '../rule.ts';
import { heatOf } from '../scene.ts';

/** What turns this share of the supply's power into heat is named. */
const SHARE = 0.25;

export const currentLimit = defineRule({
  code: 'supply/current-limit',
  severity: 'harm',
  reads: 'moment',
  look: (scene) =>
    scene.readings.supplies
      .filter((s) => s.limiting)
      .flatMap((reading) => {
        const { circuit } = scene;
        const site = circuit.supplies.find((s) => s.placed.part.id === reading.part);
        if (!site) return [];
        const { amps: limit, volts } = circuit.network.supplyOf(site.device);
        const joined = circuit.netOf(site.plus) === circuit.netOf(site.minus);
        const parts = [...heatOf(scene)]
          .filter(([, watts]) => watts > SHARE * reading.volts * reading.amps)
          .sort(([, a], [, b]) => b - a)
          .map(([placed]) => placed);
        // the lead that closed the circle: the last one in the plan of those on the net
        const lead = joined ? circuit.netOf(site.plus).ends.at(-1)?.lead.id : undefined;
        return [
          {
            at: [toPart(site.placed), ...(lead === undefined ? [] : [{ kind: 'lead', id: lead } as const]), ...parts.map(toPart)],
            data: { measured: reading.amps, limit, set: volts, volts: reading.volts, joined: joined ? 'yes' : 'no' },
          },
        ];
      }),
  bad: { points: 'PS1', bench: `${FED}\nR1 resistor a10 a15 ohms=1\nW1 lead b10 -j5\nW2 lead b15 +j5` },
  good: { bench: `${FED}\nR1 resistor a10 a15 ohms=1k\nW1 lead b10 -j5\nW2 lead b15 +j5` },
});
