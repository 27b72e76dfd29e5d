/** A flyback diode the wrong way round: as soon as the coil is switched on, the diode carries all that the supply gives. */

import type { Device } from '../../../devices/network.ts';
import { reversePart } from '../../../fixes/reverse-part.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import { inAmps, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';
import { diodesAcross, type SwitchedCoil, switchedCoils } from '../../switched-coils.ts';

interface Data {
  readonly diode: Ref;
  readonly coil: Ref;
  readonly at: Ref;
  readonly contact: boolean;
  readonly supply: Ref;
  /** the most that the supply gives, and what the diode may carry [A] */
  readonly measured: number;
  readonly limit: number;
}

export const flybackDiodeReversed = defineRule<Data>({
  code: 'coil/flyback-diode-reversed',
  severity: 'damage-risk',
  reads: 'wiring',
  look: (circuit) => switchedCoils(circuit).flatMap((coil) => reversedAt(circuit, coil)),
  message: ({ diode, coil, at, contact, supply, measured, limit }) =>
    say`${diode} across ${coil} is reversed: when ${contact ? say`the contact at ${at} closes` : say`${at} switches on`}, it shorts ${supply}, up to ${inAmps(measured)} (limit ${inAmps(limit)}). Swap its legs.`,
  fixes: ({ diode }, bench) => reversePart(bench, diode),
});

function reversedAt(circuit: Circuit, coil: SwitchedCoil): Data[] {
  const [supply] = [...circuit.supplies].sort((a, b) => voltsOf(circuit, b.device) - voltsOf(circuit, a.device));
  if (!supply) return [];
  const { volts, ohms, amps } = circuit.network.supplyOf(supply.device);
  return diodesAcross(circuit, coil).wrong.flatMap(({ placed }) => {
    const limit = placed.kind.mostCurrent?.value;
    if (limit === undefined) return [];
    const measured = Math.min(amps, volts / (ohms + coil.series));
    if (measured <= limit) return [];
    return [
      {
        diode: toPart(placed),
        coil: toPart(coil.site.placed),
        at: toPin(coil.at),
        contact: coil.most === undefined,
        supply: toPart(supply.placed),
        measured,
        limit,
      },
    ];
  });
}

const voltsOf = ({ network }: Circuit, device: Device): number => network.supplyOf(device).volts;

/** A relay that a button switches, with a diode across it. */
const bench = (diode: string): string => `${FED}
  relay K1 at e15
  wire WK red from j15 to +j10
  push-button S9 at e40
  wire WS1 yellow from a15 to a40
  wire WS2 black from a42 to -a30
  wire WA black from -j2 to -a2
  diode D1 ${diode}`;

export const flybackDiodeReversedExamples = (): RuleExamples => ({
  bad: { points: 'D1', bench: bench('from i15 to b15') },
  good: { bench: bench('from b15 to i15') },
});
