/** A supply that is asked for more than its current limit, and what takes most of it. */

import { inAmps, inVolts, listed, type Ref, say } from '../../../sentence/wording.ts';
import { compareCounting } from '../../../units/text-list.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { partingWires } from '../../parting-wires.ts';
import { defineRule, toPart, toWire } from '../../rule.ts';
import { heatOf } from '../../rule-context.ts';

/** What turns this share of the supply's power into heat is named. */
const SHARE = 0.25;

interface Data {
  readonly supply: Ref;
  /** of a short by wires: the fewest whose removal parts the terminals; or any one of them */
  readonly wires: readonly Ref[];
  readonly any: boolean;
  /** what takes most of the power */
  readonly loads: readonly Ref[];
  /** its terminals are on one net */
  readonly shorted: boolean;
  /** its current, and its current limit [A] */
  readonly measured: number;
  readonly limit: number;
  /** at its terminals, and as it is set [V] */
  readonly volts: number;
  readonly set: number;
  /** the limit that such a supply comes with, where this one is set lower [A] */
  readonly usual?: number;
}

export const currentLimit = defineRule<Data>({
  code: 'supply/current-limit',
  severity: 'damage-risk',
  reads: 'moment',
  role: 'cause',
  look: (scene) =>
    scene.readings.supplies
      .filter((s) => s.limiting)
      .flatMap((reading) => {
        const { circuit } = scene;
        const site = circuit.supplyById.get(reading.part);
        if (!site) return [];
        const { amps: limit, volts: set } = circuit.network.supplyOf(site.device);
        const usual = Number(site.placed.kind.params.find((p) => p.type === 'number' && p.unit === 'A')?.fallback);
        const parting = partingWires(circuit, site.plus, site.minus);
        const shorted = circuit.netOf(site.plus) === circuit.netOf(site.minus);
        const loads = [...heatOf(scene, scene)]
          .filter(([, watts]) => watts > SHARE * reading.volts * reading.amps)
          .sort(([p, a], [q, b]) => b - a || compareCounting(p.part.id, q.part.id))
          .map(([placed]) => toPart(placed));
        return [
          {
            supply: toPart(site.placed),
            wires: parting.wires.map(toWire),
            any: parting.any,
            loads,
            shorted,
            measured: reading.amps,
            limit,
            volts: reading.volts,
            set,
            ...(limit < usual ? { usual } : {}),
          },
        ];
      }),
  message: ({ supply, wires, any, loads, shorted, measured, limit, volts, set, usual }) =>
    shorted
      ? say`${supply} is shorted${wires.length > 0 ? ' by wires' : ''}: ${inAmps(measured)} (limit ${inAmps(limit)}) at ${inVolts(volts)}. Switch off and ${wires.length > 0 ? say`remove ${listed(wires, any ? 'or' : 'and')}` : 'move one of its terminals'}.`
      : say`${supply} is at its current limit: ${inAmps(measured)} (limit ${inAmps(limit)}), and only ${inVolts(volts)} of ${inVolts(set)} is left. Switch off and check ${loads.length > 0 ? listed(loads) : 'for a short'}${usual === undefined ? '' : `, or set its limit to ${inAmps(usual)}`}.`,
});

export const currentLimitExamples = (): RuleExamples => ({
  bad: { points: 'PS1', bench: `${FED}\nresistor R1 1 from a10 to a15\nwire W1 from b10 to -j5\nwire W2 from b15 to +j5` },
  good: { bench: `${FED}\nresistor R1 1k from a10 to a15\nwire W1 from b10 to -j5\nwire W2 from b15 to +j5` },
});
