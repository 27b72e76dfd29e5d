/**
 * A reading as a band: typical, and least to most over all specimens of the parts that decide it, with the switches where the plan has them and the bench at
 * rest. As for margins, a part elsewhere that only loads the supply is left nominal; for a supply's own current every part counts.
 */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanMeter } from '../../shared/plan.ts';
import { holeName, readHole } from '../board/tie-points.ts';
import { GROUND, type Node } from '../devices/network.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { simulate } from '../run/simulation.ts';
import { leakageOn } from './at-rest.ts';
import { type ExperimentReading, makeExperimentRunner } from './experiment.ts';
import { extremes } from './methods.ts';
import { type Tolerance, tolerancesOf } from './tolerances.ts';

/** One reading over all specimens, in V or A as `unit` says; least ≤ typical ≤ most. */
export interface ReadingBand {
  readonly unit: 'V' | 'A';
  /** every part as the plan says, outputs on their typical curve, inputs without leakage */
  readonly typical: number;
  readonly least: number;
  readonly most: number;
  /** figures that move the reading at all, such as 'R3.ohms' */
  readonly movers: readonly string[];
  /** of these the ones in which it turns round between the bounds, so that a value in between may lie outside the band */
  readonly turning: readonly string[];
}

/** What is read, and which blocks of the circuit decide it. */
interface Target {
  readonly unit: 'V' | 'A';
  readonly blocks: ReadonlySet<number>;
  /** NaN: undefined (X), or nothing drives it */
  read(seen: ExperimentReading): number;
  /** how far worst leakage moves it; way: 1 up, −1 down */
  drift(seen: ExperimentReading, way: 1 | -1): number;
}

/** A figure that by itself moves the reading by less than this share of it is left nominal. */
const IDLE = 1e-8;
/** Nor one that moves it by less than this [V, A]: of a dark LED some picoamperes. */
const NIL = 1e-9;
/** Readings at rest that are nearer to each other than this share are one. */
const ALIKE = 1e-9;
/** Up to so many figures are tried at all corners. */
const MOST_CORNERS = 8;
/** A meter that is put down to read a hole; no id of a plan looks like this. */
const TIP = '=';

/**
 * `of`: a meter such as M1 [V or A], an LED such as LED3 or DS1.a [A], a supply such as PS1 [A], a pin such as U1.9 [V, of a chip against its ground pin,
 * of another part against the first supply's minus], or a hole such as a12 [V]. progress: called with 0 to 1.
 * Fails with `plan/…`, `run/nothing-to-read`, `run/no-rest` or `run/undefined-reading`.
 */
export function readingBand(plan: Plan, of: string, progress: (part: number) => void = () => {}): Outcome<ReadingBand> {
  const hole = readHole(of, plan.boards);
  const tip = hole.ok ? [{ id: TIP, measures: 'volts' as const, at: holeName(hole.value, plan.boards) }] : [];
  const { outputs: _, ...typical } = plan;
  const asked: Plan = { ...typical, meters: [...plan.meters, ...tip] };
  const made = simulate(asked, { bounce: false, still: true });
  if (!made.ok) return made;
  const target = targetOf(made.value.circuit, hole.ok ? TIP : of);
  if (!target)
    return failed(
      'run/nothing-to-read',
      of,
      hole.ok
        ? `Nothing connects to ${of}, so there is no voltage to read.`
        : `There is nothing called ${of} to read. Name a meter, an LED, a supply, a pin such as U1.9 or a hole such as a12.`,
    );
  if (made.value.pending || made.value.readings().restless)
    return failed('run/no-rest', of, 'This bench changes by itself, and least to most is worked out for a bench at rest. Stop its clock.');
  const band = bandOver(asked, target, tolerancesOf(made.value.circuit, target.blocks), progress);
  return band
    ? done(band)
    : failed('run/undefined-reading', of, `${of} floats or is undefined (X), here or with other specimens, so it has no least and most.`);
}

/** undefined: it is undefined with some specimens. */
function bandOver(plan: Plan, target: Target, spreads: readonly Tolerance[], progress: (part: number) => void): ReadingBand | undefined {
  const trial = makeExperimentRunner({ plan });
  let tried = 0;
  // each by itself, then on lines through the middle and both corners, on the way to these, and all that for either end
  const about = 1 + 24 * spreads.length;
  const seen = (values: readonly number[], of: readonly Tolerance[]) => {
    tried += 1;
    progress(Math.min(0.99, tried / about));
    return trial(of, values);
  };
  let sure = true;
  /** way: 1 with worst leakage up, −1 down, 0 without */
  const figure =
    (way: 1 | 0 | -1, of: readonly Tolerance[]) =>
    (values: readonly number[]): number => {
      const found = seen(values, of);
      const value = found ? target.read(found) : Number.NaN;
      sure &&= !Number.isNaN(value);
      return found ? value + (way === 0 ? 0 : way * target.drift(found, way)) : value;
    };
  const typical = figure(0, [])([]);
  const moves = (s: Tolerance) =>
    [s.least, s.most].some((v) => Math.abs(figure(0, [s])([v]) - typical) > Math.max(NIL, IDLE * Math.abs(typical)));
  const active = sure ? spreads.filter(moves) : [];
  if (!sure) return undefined;
  const care = { mostCorners: MOST_CORNERS, pieces: 2, alike: ALIKE };
  const down = extremes(figure(-1, active), active, care);
  const up = extremes(figure(1, active), active, care);
  const named = (i: number) => `${active[i]?.part}.${active[i]?.figure}`;
  return sure
    ? {
        unit: target.unit,
        typical,
        least: down.seen.least,
        most: up.seen.most,
        movers: active.map((_, i) => named(i)),
        turning: [...new Set([...down.turning, ...up.turning])].sort((a, b) => a - b).map(named),
      }
    : undefined;
}

function targetOf(circuit: Circuit, of: string): Target | undefined {
  const meter = circuit.plan.meters.find((m) => m.id === of);
  if (meter) return meter.measures === 'level' ? undefined : meterTarget(circuit, meter);
  const led = circuit.leds.find((l) => l.id === of);
  if (led) {
    const reading = ({ readings }: ExperimentReading) => readings.leds.find((l) => l.led === of);
    return current(blocksAt(circuit, [led.anode, led.cathode].map(circuit.nodeOf)), (seen) =>
      reading(seen)?.brightness === 'unknown' ? undefined : reading(seen)?.amps,
    );
  }
  if (circuit.supplyById.has(of)) return current(allBlocks(circuit), ({ readings }) => readings.supplies.find((s) => s.part === of)?.amps);
  return pinTarget(circuit, of);
}

const current = (blocks: ReadonlySet<number>, amps: (seen: ExperimentReading) => number | undefined): Target => ({
  unit: 'A',
  blocks,
  read: (seen) => amps(seen) ?? Number.NaN,
  drift: () => 0,
});

function meterTarget(circuit: Circuit, meter: Exclude<PlanMeter, { measures: 'level' }>): Target | undefined {
  const reading = ({ readings }: ExperimentReading) => readings.meters[meter.id];
  if (meter.measures === 'volts') {
    const tips = [meter.at, ...(meter.against === undefined ? [] : [meter.against])].map((tip) => circuit.interconnect.atPoint(tip));
    if (tips.includes(undefined)) return undefined;
    return voltage(
      circuit,
      tips.flatMap((t) => t ?? []),
      reading,
    );
  }
  const part = circuit.placed.get(meter.leg.split('.')[0] ?? '');
  const leg = part?.legs.find((l) => `${l.part.id}.${l.pin}` === meter.leg);
  if (!part || !leg) return undefined;
  const blocks = part.kind.group === 'supply' ? allBlocks(circuit) : blocksAt(circuit, part.legs.map(circuit.nodeOf));
  const { index } = circuit.netOf(leg);
  return current(blocks, (seen) => (seen.readings.nets[index]?.drive === 'unknown' ? undefined : reading(seen)));
}

function pinTarget(circuit: Circuit, of: string): Target | undefined {
  const [part = '', pin = ''] = of.split('.');
  const leg = circuit.placed.get(part)?.legs.find((l) => l.pin === pin);
  if (!leg) return undefined;
  const [node, net] = [circuit.nodeOf(leg), circuit.netOf(leg)];
  const chip = circuit.chipById.get(part);
  return voltage(circuit, [{ node, net }], ({ readings, circuit: { nodeOfNet } }) =>
    chip
      ? readings.chips.find((c) => c.part === part)?.pins.find((p) => p.pin === pin)?.volts
      : (readings.nodes?.[node] ?? (nodeOfNet[net.index] === GROUND ? 0 : readings.nets[net.index]?.volts)),
  );
}

/** Of a net that floats there is none. */
const voltage = (
  circuit: Circuit,
  places: readonly { readonly node: Node; readonly net: { readonly index: number } }[],
  volts: (seen: ExperimentReading) => number | undefined,
): Target => ({
  unit: 'V',
  blocks: blocksAt(
    circuit,
    places.map((p) => p.node),
  ),
  read(seen) {
    const lost = places.some(({ net }) => ['floating', 'unknown'].includes(seen.readings.nets[net.index]?.drive ?? 'floating'));
    return (lost ? undefined : volts(seen)) ?? Number.NaN;
  },
  // against a second place it rises as that one falls
  drift: (seen, way) =>
    places.reduce((sum, { net: { index } }, k) => {
      const here = k === 0 ? way : way === 1 ? -1 : 1;
      return sum + (seen.readings.nets[index]?.ohms ?? 0) * leakageOn(seen.circuit, index, here);
    }, 0),
});

const blocksAt = ({ partition }: Circuit, nodes: readonly Node[]): ReadonlySet<number> =>
  new Set(nodes.map((n) => partition.blockOf(n)).filter((b) => b !== -1));
const allBlocks = (circuit: Circuit) =>
  blocksAt(
    circuit,
    [...circuit.placed.values()].flatMap((p) => p.legs.map(circuit.nodeOf)),
  );
