/** A chip without a capacitor close to it between its supply pin's net and its ground pin's net. */

import { holesApart } from '../../../board/tie-points.ts';
import { decouple } from '../../../fixes/decouple.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { ChipSite, Placed } from '../../../run/circuit/sites.ts';
import { inFarads, its, type Ref, say } from '../../../sentence/wording.ts';
import { siFormat } from '../../../units/quantity.ts';
import { memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

/** What counts, and what is usual, one at each chip [F]: common practice, no source. */
const LEAST = 10e-9;
const USUAL = 100e-9;
/** Farther from the chip's supply and ground pins the wires on the way take the capacitor's effect, an inch [m]: common practice, no source. */
const FARTHEST = 25.4e-3;
const PITCH = 2.54e-3;

interface Data {
  readonly chip: Ref;
  readonly supply: Ref;
  readonly ground: Ref;
  /** the largest there is, what counts, and what to add [F] */
  readonly measured: number;
  readonly limit: number;
  readonly cure: number;
  /** there is one that is large enough: the nearest, how far its nearer leg is from the chip's pins, and how far it may be [m] */
  readonly far?: { readonly capacitor: Ref; readonly measured: number; readonly limit: number };
}

export const noDecoupling = defineRule<Data>({
  code: 'chip/no-decoupling',
  severity: 'suggestion',
  reads: 'wiring',
  look: (circuit) =>
    circuit.chips.flatMap((chip) => {
      if (chip.spec.decoupled || chip.supply.leg === chip.ground.leg) return [];
      const between = [...circuit.placed.values()].filter((p) => spans(circuit, p, [chip.supply, chip.ground]));
      const most = Math.max(0, ...between.map(farads));
      const far = most < LEAST ? undefined : tooFar(chip, between);
      if (most >= LEAST && !far) return [];
      const [supply, ground] = [toPin(chip.supply.leg), toPin(chip.ground.leg)];
      return [{ chip: toPart(chip.placed), supply, ground, measured: most, limit: LEAST, cure: USUAL, ...(far ? { far } : {}) }];
    }),
  message: ({ chip, supply, ground, measured, limit, cure, far }) =>
    far
      ? say`The decoupling capacitor nearest to ${chip}, ${far.capacitor}, is ${siFormat(far.measured, 'm')} from its pins (at most ${siFormat(far.limit, 'm')}). Add ${inFarads(cure)} close to the chip.`
      : say`${chip} has ${measured > 0 ? `only ${inFarads(measured)}` : 'no decoupling capacitor'} between ${its(supply)} and ${its(ground)} (at least ${inFarads(limit)}). Add ${inFarads(cure)} close to the chip.`,
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

/** The nearest of those that are large enough, if even that is too far from both of the chip's pins. */
function tooFar({ supply, ground }: ChipSite, capacitors: readonly Placed[]): Data['far'] {
  const pins = [supply, ground].flatMap(({ leg }) => leg.hole ?? []);
  let nearest: NonNullable<Data['far']> | undefined;
  for (const p of capacitors) {
    if (farads(p) < LEAST) continue;
    const holes = p.legs.flatMap((leg) => leg.hole ?? []);
    const measured = PITCH * Math.min(...pins.flatMap((pin) => holes.map((hole) => holesApart(pin, hole))));
    if (!nearest || measured < nearest.measured) nearest = { capacitor: toPart(p), measured, limit: FARTHEST };
  }
  return nearest && nearest.measured > FARTHEST ? nearest : undefined;
}

/** The figure of this specimen that is in farads. */
const farads = (p: Placed): number => {
  const spec = p.kind.params.find((s) => s.type === 'number' && s.unit === 'F');
  return spec ? Number(p.params[spec.name]) : 0;
};

export const noDecouplingExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: memoryBench('', 'C9') },
  good: { bench: memoryBench('') },
});
