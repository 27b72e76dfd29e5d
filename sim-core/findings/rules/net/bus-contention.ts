/** An output that another output, or a supply's terminal through a wire or a closed switch, holds against its level. */

import type { Circuit } from '../../../run/circuit/circuit.ts';
import { inAmps, inVolts, listed, type Ref, say } from '../../../sentence/wording.ts';
import { type Contention, contentions } from '../../contention.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { partingWires } from '../../parting-wires.ts';
import { defineRule, toNet, toPin, toWire } from '../../rule.ts';

interface Data {
  readonly pin: Ref;
  /** what it drives against: an output, or something on the supply's terminal */
  readonly other?: Ref;
  readonly against: 'output' | 'supply';
  /** that join the two, where no switch does: the fewest whose removal parts them; or any one of them */
  readonly wires: readonly Ref[];
  readonly any: boolean;
  readonly way: 'high' | 'low';
  /** between them, and the lower of the two limits [A] */
  readonly measured: number;
  readonly limit: number;
  readonly source: string;
  /** of the net [V] */
  readonly volts: number;
}

export const busContention = defineRule<Data>({
  code: 'net/bus-contention',
  severity: 'fault',
  severityOf: ({ measured, limit }) => (measured > limit ? 'damage-risk' : 'fault'),
  reads: 'moment',
  look(scene) {
    const { circuit } = scene;
    return contentions(scene)
      .filter((f) => !f.other || f.amps > 0)
      .map((f) => {
        const [terminal] = f.terminal === undefined ? [] : toNet(circuit.nets.all[f.terminal]);
        const other = f.other ? toPin(f.other.pin.leg) : terminal;
        return {
          pin: toPin(f.pin.leg),
          ...(other ? { other } : {}),
          against: f.against,
          ...between(circuit, f),
          way: f.amps > 0 ? 'high' : 'low',
          measured: Math.abs(f.amps),
          limit: Math.min(f.chip.spec.mostPinCurrent.value, f.other?.chip.spec.mostPinCurrent.value ?? Number.POSITIVE_INFINITY),
          source: f.chip.spec.mostPinCurrent.source,
          volts: scene.at(circuit.netOf(f.pin.leg).index),
        };
      });
  },
  message: ({ pin, other = 'the supply', against, wires, any, way, measured, limit, volts }) => {
    const current = `${inAmps(measured)} (${measured > limit ? 'limit' : 'within its limit of'} ${inAmps(limit)})`;
    const part = wires.length > 0 ? say`Move or remove ${listed(wires, any ? 'or' : 'and')}` : undefined;
    return against === 'output'
      ? say`Bus contention: ${pin} drives high against ${other}, ${current} at ${inVolts(volts)}. ${part ?? 'Part the two'}.`
      : say`Contention: ${pin} drives ${way} against ${other}, ${current}. ${part ?? 'Set the output high-impedance (Z) before you connect it to a rail, or connect it through 1 kΩ'}.`;
  },
});

function between(circuit: Circuit, { pin, other, terminal }: Contention): Pick<Data, 'wires' | 'any'> {
  const [end] = other ? [other.pin.leg] : terminal === undefined ? [] : (circuit.nets.all[terminal]?.legs.filter((l) => !l.hole) ?? []);
  const { wires, any } = end ? partingWires(circuit, pin.leg, end) : { wires: [], any: false };
  return { wires: wires.map(toWire), any };
}

export const busContentionExamples = (): RuleExamples => ({
  bad: {
    points: 'U1.9',
    bench: memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nwire WF from a20 to a21\nmemory U1 000 01'),
  },
  good: { bench: memoryBench('wire WOE from j16 to -j9\nwire WWE from j15 to +j9\nwire WF from a20 to a21\nmemory U1 000 03') },
});
