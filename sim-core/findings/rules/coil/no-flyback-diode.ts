/** A coil that is switched off with nothing to carry its current on: it drives its own voltage up until something gives way. */

import { addFlybackDiode } from '../../../fixes/flyback-diode.ts';
import { openVolts } from '../../../parts/figures/windings.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import { inAmps, inVolts, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';
import { diodesAcross, ohmsAcross, type SwitchedCoil, switchedCoils } from '../../switched-coils.ts';

interface Data {
  readonly coil: Ref;
  readonly at: Ref;
  /** of the coil: where its current leaves it, and where it enters */
  readonly out: Ref;
  readonly back: Ref;
  /** what the switch has to bear, and may [V]; no limit: a contact. Where no sheet says at which voltage it gives way, nothing else bounds it */
  readonly measured: number;
  readonly limit?: number;
  readonly unbounded: boolean;
  readonly amps: number;
}

export const noFlybackDiode = defineRule<Data>({
  code: 'coil/no-flyback-diode',
  severity: 'damage-risk',
  severityOf: ({ limit }) => (limit === undefined ? 'marginal' : 'damage-risk'),
  reads: 'wiring',
  look: (circuit) => switchedCoils(circuit).flatMap((coil) => bare(circuit, coil) ?? []),
  message: ({ coil, at, measured, limit, unbounded, amps }) =>
    limit === undefined
      ? say`${coil} has no flyback diode: when the contact at ${at} opens, ${inAmps(amps)} have no path and drive ${inVolts(measured)} across it, and it arcs. Add a diode across ${coil}, cathode at plus.`
      : say`${coil} has no flyback diode: when ${at} switches off, ${inAmps(amps)} have no path and drive it ${unbounded ? say`beyond its limit of ${inVolts(limit)}, until it breaks down` : say`to ${inVolts(measured)} (limit ${inVolts(limit)})`}. Add a diode across ${coil}, cathode at plus.`,
  fixes: ({ coil, out, back, amps }, bench) => addFlybackDiode(bench, coil, out, back, amps),
});

/** With the highest supply at rest across its wire, a motor at a standstill. */
function bare(circuit: Circuit, coil: SwitchedCoil): Data | undefined {
  const { site, near, far, series, leavesNear, at, most, gives = Number.POSITIVE_INFINITY } = coil;
  const { right, wrong } = diodesAcross(circuit, coil);
  const volts = Math.max(0, ...circuit.supplies.map((s) => circuit.network.supplyOf(s.device).volts));
  if (right.length + wrong.length > 0 || volts === 0) return undefined;
  const amps = volts / (site.model.ohms + series);
  const alone = openVolts(amps, site.model.henries);
  const measured = Math.min(volts + Math.min(alone, amps * ohmsAcross(circuit, coil)), gives);
  if (most && measured <= most.value) return undefined;
  const [out, back] = leavesNear ? [near, far] : [far, near];
  return {
    coil: toPart(site.placed),
    at: toPin(at),
    out: toPin(out),
    back: toPin(back),
    measured,
    unbounded: most !== undefined && coil.gives === undefined,
    amps,
    ...(most ? { limit: most.value } : {}),
  };
}

/** A relay that a transistor switches, always on. */
const driven = (more: string): string => `${FED}
  wire WA black from -j2 to -a1
  wire WB red from +j2 to +a1
  relay K1 at e15
  wire WK red from a15 to +a10
  wire WQ yellow from j15 to a32
  npn-transistor Q1 at c30
  wire WE black from a30 to -a25
  resistor R1 4k7 from a31 to +a26
  ${more}`;

export const noFlybackDiodeExamples = (): RuleExamples => ({
  bad: { points: 'K1', bench: driven('') },
  good: { bench: driven('diode D1 from i15 to b15') },
});
