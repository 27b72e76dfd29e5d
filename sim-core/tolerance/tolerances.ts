/**
 * What differs from one specimen to the next on a bench: resistors, capacitors and supplies by their tolerance, LEDs by their forward voltage, outputs between
 * their guaranteed and their typical curve, leaks between typical and most, inputs by where they change sides. Temperature is not varied by itself: between 0 and 40 °C a film resistor moves
 * by 0.2 % (100 ppm/K, from memory) and an LED by some 50 mV, inside the spreads below; the chips' guaranteed figures hold for their whole range.
 */
import type { Circuit } from '../run/circuit/circuit.ts';
import type { PartOverride, PartOverrides } from '../run/circuit/part-overrides.ts';
import type { LedSite, Placed } from '../run/circuit/sites.ts';
import { blocksOf } from '../run/circuit/switch-settings.ts';
import type { Variable } from './methods.ts';

/** One figure of one part, and where it may lie. */
export interface Tolerance extends Variable {
  readonly part: string;
  /** a parameter's name, or the LED's forward voltage at 10 mA, an output's strength (0 guaranteed, 1 typical), what leaks (0 typical, 1 most), an input's threshold (0 VIL, 1 VIH) */
  readonly figure: string;
  readonly unit: string;
  readonly source: string;
}

/** By colour: an LED's forward voltage at 10 mA, lowest and highest [V]. */
const FORWARD: Readonly<Record<string, { readonly least: number; readonly most: number; readonly source: string }>> = {
  red: { least: 1.7, most: 2.5, source: 'SOURCES.md S40: standard red 1.7 V typical, bright red 2.5 V at most' },
  amber: { least: 1.8, most: 2.5, source: 'SOURCES.md S40: 2.5 V at most; the lowest from memory' },
  green: { least: 1.9, most: 2.5, source: 'SOURCES.md S13: 1.9 V typical, S40: 2.5 V at most' },
  blue: { least: 2.8, most: 4.0, source: 'SOURCES.md S13: 4.0 V at most; the lowest from memory' },
  white: { least: 2.8, most: 4.0, source: 'SOURCES.md S13: 4.0 V at most; the lowest from memory' },
};
/** Of a colour that the table does not have [V]: so much less and more than its nominal LED; from memory. */
const OTHER = { below: 0.2, above: 0.4 };
/** The current at which sheets give an LED's forward voltage [A]. */
const AT = 10e-3;

const DRIVE_SOURCE = 'guaranteed: the figures of the part; typical: as its file says; no sheet says how strong the strongest is';
const THRESHOLD_SOURCE = 'derived: anywhere between the guaranteed low and the guaranteed high level';

/** Every spread of the parts that have a leg in one of these blocks, and of all supplies. In the order of the plan's parts. */
export function tolerancesOf(circuit: Circuit, blocks: ReadonlySet<number>): Tolerance[] {
  const found: Tolerance[] = [];
  for (const placed of circuit.placed.values()) {
    if (placed.kind.group !== 'supply' && !touches(circuit, placed, blocks)) continue;
    found.push(
      ...byTolerance(placed),
      ...byForward(placed),
      ...byColour(circuit, placed),
      ...byDrive(circuit, placed, blocks),
      ...byLeakage(placed),
    );
  }
  return found;
}

const touches = (circuit: Circuit, placed: Placed, blocks: ReadonlySet<number>): boolean =>
  [...blocksOf(circuit, placed.legs)].some((b) => blocks.has(b));

function byTolerance({ part, kind, params }: Placed): Tolerance[] {
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

/** A junction that is no LED. */
function byForward({ part, kind }: Placed): Tolerance[] {
  if (!kind.forward) return [];
  const { typical, least, most, source } = kind.forward;
  return [{ part: part.id, figure: 'forward', unit: 'V', nominal: typical, least, most, source }];
}

/** All LEDs of one part come from one batch. */
function byColour(circuit: Circuit, placed: Placed): Tolerance[] {
  const led = circuit.leds.find((l) => l.placed === placed);
  if (!led) return [];
  return [{ part: placed.part.id, figure: 'forward', unit: 'V', ...forwardSpread(led) }];
}

/** Where an LED's forward voltage at 10 mA may lie [V]. */
export function forwardSpread({
  junction,
  led,
}: Pick<LedSite, 'junction' | 'led'>): Pick<Tolerance, 'nominal' | 'least' | 'most' | 'source'> {
  const { is, nvt, rs } = junction;
  const nominal = nvt * Math.log1p(AT / is) + AT * rs;
  const known = FORWARD[led.colour];
  const { least, most, source } = known ?? { least: nominal - OTHER.below, most: nominal + OTHER.above, source: 'from memory' };
  return { nominal, least: Math.min(least, nominal), most: Math.max(most, nominal), source };
}

function byDrive(circuit: Circuit, placed: Placed, blocks: ReadonlySet<number>): Tolerance[] {
  const chip = circuit.chips.find((c) => c.placed === placed);
  const drives = chip?.outputs.some((o) => [...blocksOf(circuit, [o.leg])].some((b) => blocks.has(b)));
  return drives ? [{ part: placed.part.id, figure: 'drive', unit: '', nominal: 1, least: 0, most: 1, source: DRIVE_SOURCE }] : [];
}

function byLeakage({ part, kind }: Placed): Tolerance[] {
  return kind.leakage ? [{ part: part.id, figure: 'leakage', unit: '', nominal: 0, least: 0, most: 1, source: kind.leakage }] : [];
}

/** Where the inputs of this chip change sides. */
export const thresholdOf = (part: string): Tolerance => ({
  part,
  figure: 'threshold',
  unit: '',
  nominal: 0.5,
  least: 0,
  most: 1,
  source: THRESHOLD_SOURCE,
});

/** Specimens in which these figures have these values. */
export function specimensAt(spreads: readonly Tolerance[], values: readonly number[]): PartOverrides {
  const made = new Map<string, PartOverride>();
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

const READ: Readonly<Record<string, (value: number, s: Tolerance) => PartOverride>> = {
  forward: (value, s) => ({ forward: value - s.nominal }),
  drive: (value) => ({ drive: value }),
  leakage: (value) => ({ leakage: value }),
  threshold: (value) => ({ threshold: value }),
};
