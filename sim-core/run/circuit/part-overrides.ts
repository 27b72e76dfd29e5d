/** How single specimens differ from what their kinds and the plan say: other figures, another forward voltage, weaker outputs, another threshold. */
import type { Channel, Junction } from '../../devices/device-models.ts';
import type { ChipSpec, Drive, InputFigures, Params, Wiring } from '../../parts/part.ts';

export interface PartOverride {
  /** parameters in place of those that the plan gives, by name; not checked against the kind's limits */
  readonly params?: Readonly<Record<string, number>>;
  /** its LEDs, or its only junction, need so much more voltage at every current [V] */
  readonly forward?: number;
  /**
   * where its outputs are between their guaranteed curve (0) and their typical one (1), and its supply current between its most and its typical,
   * whichever the simulation uses
   */
  readonly drive?: number;
  /** where what leaks in it is between typical (0) and most (1), whichever the simulation uses */
  readonly leakage?: number;
  /** its inputs change sides at one voltage between VIL (0) and VIH (1) instead of being undefined there; a Schmitt input keeps its two */
  readonly threshold?: number;
}

/** By part id. */
export type PartOverrides = ReadonlyMap<string, PartOverride>;

export const overriddenParams = (params: Params, specimen: PartOverride | undefined): Params =>
  specimen?.params ? { ...params, ...specimen.params } : params;

/** Wires a part as this specimen of it. */
export function overriddenWiring(wiring: Wiring, specimen: PartOverride | undefined): Wiring {
  if (!specimen) return wiring;
  const { forward, drive, threshold, leakage } = specimen;
  return {
    ...wiring,
    conductor: (a, b, typical, most) =>
      most === undefined || leakage === undefined
        ? wiring.conductor(a, b, typical, most)
        : wiring.conductor(a, b, byRatio(typical, most, leakage)),
    contact(a, b, pole, contact) {
      const off = leakage === undefined ? contact.off : byRatio(contact.off, contact.leastOff, leakage);
      wiring.contact(a, b, pole, leakage === undefined ? contact : { ...contact, off, leastOff: off });
    },
    junction: (a, b, j, led) => wiring.junction(a, b, forward === undefined ? j : raised(j, forward), led),
    chip: (spec) => wiring.chip(withThreshold(withDrive(spec, drive), threshold)),
  };
}

/** From one positive figure to another by ratio. */
const byRatio = (from: number, to: number, share: number): number => (from === to ? from : from * (to / from) ** share);

/** I(V) of the junction becomes I(V − by), but for the saturation current. */
const raised = (j: Junction, by: number): Junction => ({ ...j, is: j.is * Math.exp(-by / j.nvt) });

function withDrive(spec: ChipSpec, drive: number | undefined): ChipSpec {
  if (drive === undefined) return spec;
  const at = ({ guaranteed, typical }: Drive): Drive => {
    const curve = { low: between(guaranteed.low, typical.low, drive), high: between(guaranteed.high, typical.high, drive) };
    return { guaranteed: curve, typical: curve };
  };
  const special = Object.fromEntries(Object.entries(spec.specialDrive ?? {}).map(([name, own]) => [name, at(own)]));
  const { typical, most } = spec.supplyCurrent;
  const current = {
    working: byRatio(most.working, typical.working, drive),
    resting: byRatio(most.resting, typical.resting, drive),
  };
  return {
    ...spec,
    supplyCurrent: { typical: current, most: current },
    drive: at(spec.drive),
    ...(spec.specialDrive ? { specialDrive: special } : {}),
  };
}

/** Conductances by ratio, offsets straight, bends by what they take away: from one curve to the other without crossing either. A missing side stays missing. */
function between(a: Channel, b: Channel, share: number): Channel {
  if (a.g === 0 || b.g === 0) return a.g === 0 ? a : b;
  const offset = (1 - share) * (a.offset ?? 0) + share * (b.offset ?? 0);
  return {
    g: byRatio(a.g, b.g, share),
    bend: 1 / ((1 - share) / a.bend + share / b.bend),
    ...(offset > 0 ? { offset } : {}),
  };
}

function withThreshold(spec: ChipSpec, threshold: number | undefined): ChipSpec {
  if (threshold === undefined) return spec;
  const at = (figures: InputFigures): InputFigures => {
    if (figures.keeps) return figures;
    const mark = figures.vil + (figures.vih - figures.vil) * threshold;
    return { ...figures, vil: mark, vih: mark };
  };
  const special = Object.fromEntries(Object.entries(spec.special ?? {}).map(([name, figures]) => [name, at(figures)]));
  return { ...spec, input: at(spec.input), ...(spec.special ? { special } : {}) };
}
