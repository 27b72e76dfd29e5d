/**
 * What differs from one specimen to the next on a bench: resistors, capacitors and supplies by their tolerance, lamps by their forward voltage, outputs between
 * their guaranteed and their typical curve, inputs by where they change sides. Temperature is not varied by itself: between 0 and 40 °C a film resistor moves
 * by 0.2 % (100 ppm/K, from memory) and a lamp by some 50 mV, inside the spreads below; the chips' guaranteed figures hold for their whole range.
 */
import type { Circuit, LampSite, Placed } from '../run/circuit.ts';
import { blocksOf } from '../run/settings.ts';
import type { Specimen, Specimens } from '../run/specimen.ts';
import type { Variable } from './methods.ts';

/** One figure of one part, and where it may lie. */
export interface Spread extends Variable {
  readonly part: string;
  /** a parameter's name, or the lamp's forward voltage at 10 mA, an output's strength (0 guaranteed, 1 typical), an input's threshold (0 VIL, 1 VIH) */
  readonly figure: string;
  readonly unit: string;
  readonly source: string;
}

/** By colour: a lamp's forward voltage at 10 mA, lowest and highest [V]. */
const FORWARD: Readonly<Record<string, { readonly least: number; readonly most: number; readonly source: string }>> = {
  red: { least: 1.7, most: 2.5, source: 'SOURCES.md S40: standard red 1.7 V typical, bright red 2.5 V at most' },
  amber: { least: 1.8, most: 2.5, source: 'SOURCES.md S40: 2.5 V at most; the lowest from memory' },
  green: { least: 1.9, most: 2.5, source: 'SOURCES.md S13: 1.9 V typical, S40: 2.5 V at most' },
  blue: { least: 2.8, most: 4.0, source: 'SOURCES.md S13: 4.0 V at most; the lowest from memory' },
  white: { least: 2.8, most: 4.0, source: 'SOURCES.md S13: 4.0 V at most; the lowest from memory' },
};
/** Of a colour that the table does not have [V]: so much less and more than its nominal lamp; from memory. */
const OTHER = { below: 0.2, above: 0.4 };
/** The current at which sheets give a lamp's forward voltage [A]. */
const AT = 10e-3;

const DRIVE_SOURCE = 'guaranteed: the figures of the part; typical: as its file says; no sheet says how strong the strongest is';
const THRESHOLD_SOURCE = 'derived: anywhere between the guaranteed low and the guaranteed high level';

/** Every spread of the parts that have a leg in one of these blocks, and of all supplies. In the order of the plan's parts. */
export function spreadsOf(circuit: Circuit, blocks: ReadonlySet<number>): Spread[] {
  const found: Spread[] = [];
  for (const placed of circuit.placed.values()) {
    if (placed.kind.group !== 'supply' && !touches(circuit, placed, blocks)) continue;
    found.push(...byTolerance(placed), ...byForward(placed), ...byColour(circuit, placed), ...byDrive(circuit, placed, blocks));
  }
  return found;
}

const touches = (circuit: Circuit, placed: Placed, blocks: ReadonlySet<number>): boolean =>
  [...blocksOf(circuit, placed.legs)].some((b) => blocks.has(b));

function byTolerance({ part, kind, params }: Placed): Spread[] {
  const { spread } = kind;
  const share = Number(params.tolerance) / 100;
  if (!spread || !(share > 0)) return [];
  const nominal = Number(params[spread.of]);
  const unit = kind.params.find((p) => p.name === spread.of);
  return [
    {
      part: part.id,
      figure: spread.of,
      nominal,
      least: nominal * (1 - share),
      most: nominal * (1 + share),
      unit: unit?.type === 'number' ? unit.unit : '',
      source: spread.source,
    },
  ];
}

/** A junction that is no lamp. */
function byForward({ part, kind }: Placed): Spread[] {
  if (!kind.forward) return [];
  const { typical, least, most, source } = kind.forward;
  return [{ part: part.id, figure: 'forward', unit: 'V', nominal: typical, least, most, source }];
}

/** All lamps of one part come from one batch. */
function byColour(circuit: Circuit, placed: Placed): Spread[] {
  const lamp = circuit.lamps.find((l) => l.placed === placed);
  if (!lamp) return [];
  return [{ part: placed.part.id, figure: 'forward', unit: 'V', ...forwardSpread(lamp) }];
}

/** Where a lamp's forward voltage at 10 mA may lie [V]. */
export function forwardSpread({
  junction,
  lamp,
}: Pick<LampSite, 'junction' | 'lamp'>): Pick<Spread, 'nominal' | 'least' | 'most' | 'source'> {
  const { is, nvt, rs } = junction;
  const nominal = nvt * Math.log1p(AT / is) + AT * rs;
  const known = FORWARD[lamp.colour];
  const { least, most, source } = known ?? { least: nominal - OTHER.below, most: nominal + OTHER.above, source: 'from memory' };
  return { nominal, least: Math.min(least, nominal), most: Math.max(most, nominal), source };
}

function byDrive(circuit: Circuit, placed: Placed, blocks: ReadonlySet<number>): Spread[] {
  const chip = circuit.chips.find((c) => c.placed === placed);
  const drives = chip?.outputs.some((o) => [...blocksOf(circuit, [o.leg])].some((b) => blocks.has(b)));
  return drives ? [{ part: placed.part.id, figure: 'drive', unit: '', nominal: 1, least: 0, most: 1, source: DRIVE_SOURCE }] : [];
}

/** Where the inputs of this chip change sides. */
export const thresholdOf = (part: string): Spread => ({
  part,
  figure: 'threshold',
  unit: '',
  nominal: 0.5,
  least: 0,
  most: 1,
  source: THRESHOLD_SOURCE,
});

/** Specimens in which these figures have these values. */
export function specimensAt(spreads: readonly Spread[], values: readonly number[]): Specimens {
  const made = new Map<string, Specimen>();
  for (const [i, s] of spreads.entries()) {
    const value = values[i] ?? s.nominal;
    const before = made.get(s.part);
    made.set(s.part, {
      ...before,
      ...(s.figure in READ ? READ[s.figure]?.(value, s) : { params: { ...before?.params, [s.figure]: value } }),
    });
  }
  return made;
}

const READ: Readonly<Record<string, (value: number, s: Spread) => Specimen>> = {
  forward: (value, s) => ({ forward: value - s.nominal }),
  drive: (value) => ({ drive: value }),
  threshold: (value) => ({ threshold: value }),
};
