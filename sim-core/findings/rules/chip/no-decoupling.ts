/** A chip without a capacitor between its supply pin's net and its ground pin's net. */

import { decouple } from '../../../fixes/decouple.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { Placed } from '../../../run/circuit/sites.ts';
import { inFarads, its, type Ref, say } from '../../../sentence/wording.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

/** What counts, and what is usual, one at each chip [F]: common practice, no source. */
const LEAST = 10e-9;
const USUAL = 100e-9;

interface Data {
  readonly chip: Ref;
  readonly supply: Ref;
  readonly ground: Ref;
  /** the largest there is, what counts, and what to add [F] */
  readonly measured: number;
  readonly limit: number;
  readonly cure: number;
}

export const noDecoupling = defineRule<Data>({
  code: 'chip/no-decoupling',
  severity: 'suggestion',
  reads: 'wiring',
  look: (circuit) =>
    circuit.chips.flatMap((chip) => {
      if (chip.spec.decoupled || chip.supply.leg === chip.ground.leg) return [];
      const most = Math.max(0, ...[...circuit.placed.values()].filter((p) => spans(circuit, p, [chip.supply, chip.ground])).map(farads));
      if (most >= LEAST) return [];
      const [supply, ground] = [toPin(chip.supply.leg), toPin(chip.ground.leg)];
      return [{ chip: toPart(chip.placed), supply, ground, measured: most, limit: LEAST, cure: USUAL }];
    }),
  message: ({ chip, supply, ground, measured, limit, cure }) =>
    say`${chip} has ${measured > 0 ? `only ${inFarads(measured)}` : 'no decoupling capacitor'} between ${its(supply)} and ${its(ground)} (at least ${inFarads(limit)}). Add ${inFarads(cure)} close to the chip.`,
  fixes: ({ chip, supply, ground, cure }, bench) => decouple(bench, chip, supply, ground, cure),
});

const spans = (
  circuit: Circuit,
  p: Placed,
  [a, b]: readonly [{ leg: Placed['legs'][number] }, { leg: Placed['legs'][number] }],
): boolean => {
  const between = new Set([a, b].map((pin) => circuit.netOf(pin.leg)));
  return (
    p.kind.decouples === true &&
    between.size === 2 &&
    new Set(p.legs.map((l) => circuit.netOf(l))).size === 2 &&
    p.legs.every((l) => between.has(circuit.netOf(l)))
  );
};

/** The figure of this specimen that is in farads. */
const farads = (p: Placed): number => {
  const spec = p.kind.params.find((s) => s.type === 'number' && s.unit === 'F');
  return spec ? Number(p.params[spec.name]) : 0;
};

export const noDecouplingExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench('', 'C9') },
  good: { bench: memoryBench('') },
});
