/** A block of circuit between its rail and ground as benches share it: its states at rest, and the levels and looks that follow, without events. */
import type { Supply } from '../../devices/device-models.ts';
import { type Device, GROUND, Network, type Node, OFF, type Pull } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import { FloatingInputs } from '../analog/floating-inputs.ts';
import { METER } from '../circuit/circuit.ts';
import { Partition } from '../circuit/partition.ts';
import type { makeSiteBuilder } from '../circuit/site-builder.ts';
import type { ChipInput, ChipSite, ContactSite, LedSite } from '../circuit/sites.ts';
import { BRIGHTNESSES } from '../readout/readings.ts';
import { BlockClass, weightsOf } from '../rows/block-class.ts';
import { type BlockCurve, BlockReader } from '../rows/block-reader.ts';
import { type Range, TERMS, valueAt } from '../rows/polynomial.ts';

/** More cases than this of outputs that are unknown are left to the event engine, which need not go through all of them. */
const MOST_CASES = 64;
const UNKNOWN = BRIGHTNESSES.indexOf('unknown');

/** What follows from a state: levels of the inputs as their chips take them; undefined where that depends on what was before. */
export interface JudgedState {
  readonly levels: readonly Level[];
  /** as the voltages alone say */
  readonly plain: readonly Level[];
  /** states that may be */
  readonly cases: readonly number[];
}

/** Parts of a mini circuit, and which of its nodes the block is. */
export interface BlockPlan {
  /** nodes 0 … nodes − 1 are the block's; then its rail; then all other metal as one */
  readonly nodes: number;
  readonly supply: Supply;
  readonly loads: readonly (readonly [Node, Node])[];
  connect(network: Network): ReturnType<typeof makeSiteBuilder>['sites'];
}

/** What is known of states, range by range; null: it can't be had. */
class ByRange<T> {
  private readonly all = new Map<string, Map<number, T | null>>();
  private range: Range | undefined;
  private last = new Map<number, T | null>();

  in(range: Range): Map<number, T | null> {
    if (range === this.range) return this.last;
    const key = `${range.middle} ${range.half}`;
    const known = this.all.get(key) ?? new Map<number, T | null>();
    this.all.set(key, known);
    this.range = range;
    this.last = known;
    return known;
  }
}

interface Input {
  readonly chip: number;
  readonly site: ChipSite;
  readonly place: number;
  readonly pin: ChipInput;
}

export class BlockModel {
  readonly weights: readonly number[];
  /** false: it has more states than there are numbers */
  readonly isCountable: boolean;
  readonly contacts: readonly ContactSite[];
  readonly leds: readonly LedSite[];
  /** by node of the block: its place in a curve's terms, or −1 for one that is not solved for */
  readonly places: Int32Array;
  private readonly network: Network;
  private readonly rail: Node;
  private readonly block: BlockClass;
  private readonly reader: BlockReader;
  private readonly floating: FloatingInputs;
  private readonly inputs: readonly Input[];
  private readonly outputs: readonly { readonly chip: number; readonly device: Device }[];
  private readonly curves = new ByRange<BlockCurve>();
  private readonly judged = new ByRange<JudgedState>();
  private readonly doubted = new Map<string, JudgedState | null>();
  private readonly x: Float64Array;

  constructor(plan: BlockPlan) {
    const { nodes } = plan;
    const rail = nodes;
    const isHere = (node: Node) => node >= 0 && node < nodes;
    const folded = networkOf(plan, true);
    // what is one element from the rail to ground would belong to the rail
    const { network, sites } = folded.network.unfolded.some(isHere) ? folded : networkOf(plan, false);
    this.network = network;
    this.rail = rail;
    const stands = ({ device }: { readonly device: Device }) => network.nodesOf(device).some(isHere);
    this.contacts = sites.contacts.filter(stands);
    this.leds = sites.leds.filter(stands);
    this.outputs = sites.chips.flatMap((site, chip) => site.outputs.filter((o) => isHere(o.node)).map(({ device }) => ({ chip, device })));
    this.inputs = sites.chips.flatMap((site, chip) =>
      site.inputs.flatMap((pin, place) => (isHere(pin.node) ? [{ chip, site, place, pin }] : [])),
    );
    const solved = network.unfolded.filter(isHere);
    const parts = {
      rail,
      nodes: solved,
      contacts: this.contacts,
      outputs: this.outputs.map((o) => o.device),
      inputs: this.inputs.map((i) => i.pin),
      leds: this.leds,
    };
    this.weights = weightsOf(parts);
    this.isCountable = (this.weights.at(-1) as number) <= Number.MAX_SAFE_INTEGER;
    this.places = Int32Array.from({ length: nodes }, (_, node) => solved.indexOf(node));
    this.block = new BlockClass(network, parts);
    this.reader = new BlockReader(network, parts);
    const partition = new Partition(network, new Set([rail]), [], rail);
    this.floating = new FloatingInputs({ network, partition, chips: sites.chips, branches: sites.branches, supplies: [] });
    this.x = new Float64Array(network.n + 1);
  }

  /** Over a range of its rail; undefined if that cannot be had. */
  curve(number: number, range: Range): BlockCurve | undefined {
    const here = this.curves.in(range);
    let known = here.get(number);
    if (known === undefined) {
      const terms = this.block.curve(number, range);
      known = terms ? this.reader.over(terms, range) : null;
      here.set(number, known);
    }
    return known ?? undefined;
  }

  /**
   * What follows from a state. doubts: by output, all that it may pull, 1 << pull for each, or 0 where that is known; the state has it pull nothing meanwhile.
   * range: about the voltage at which it is judged.
   */
  judge(number: number, doubts: readonly number[] | undefined, range: Range): JudgedState | undefined {
    if (doubts) {
      const key = `${number} ${doubts.join()} ${range.middle} ${range.half}`;
      const known = this.doubted.get(key) ?? this.judgeAt(number, doubts, range) ?? null;
      this.doubted.set(key, known);
      return known ?? undefined;
    }
    const here = this.judged.in(range);
    let known = here.get(number);
    if (known === undefined) {
      known = this.judgeAt(number, undefined, range) ?? null;
      here.set(number, known);
    }
    return known ?? undefined;
  }

  /** Looks of its LEDs; of cases that differ, unknown. Undefined if one cannot be had. */
  looks({ cases }: JudgedState, range: Range, t: number, volts: number): Uint8Array | undefined {
    let all: Uint8Array | undefined;
    for (const number of cases) {
      const curve = this.curve(number, range);
      if (!curve) return undefined;
      const here = curve.steady ? curve.looks : this.reader.looks(curve.terms, t, volts);
      if (cases.length === 1) return here;
      all = all ? all.map((look, i) => (look === here[i] ? look : UNKNOWN)) : here;
    }
    return all;
  }

  /** Of its inputs here, as voltages alone say. */
  levels(curve: BlockCurve, t: number, volts: number): readonly Level[] {
    return curve.steady ? curve.levels : this.reader.levels(curve.terms, t, volts);
  }

  /** Voltages of all its nodes [V], those that are not solved for among them. */
  voltages(curve: BlockCurve, t: number, volts: number): Float64Array {
    this.spread(curve.terms, t, volts);
    return this.x;
  }

  private judgeAt(number: number, doubts: readonly number[] | undefined, range: Range): JudgedState | undefined {
    const cases = this.casesOf(number, doubts);
    const base = this.curve(number, range);
    const curves = cases?.map((c) => this.curve(c, range));
    if (!cases || !base || !curves?.every((c) => c !== undefined)) return undefined;
    this.set(number);
    this.spread(base.terms, 0, range.middle);
    this.floating.changed();
    const levels: Level[] = [];
    for (const [i, { chip, site, place, pin }] of this.inputs.entries()) {
      const floats = this.floating.floats(site, place, this.x);
      const plain = base.levels[i] as Level;
      if (floats === false && plain === 'X' && pin.figures.keeps) return undefined;
      const isDoubtful =
        doubts?.some((may, o) => may > 0 && this.outputs[o]?.chip !== chip) && curves.some((c) => c.levels[i] !== curves[0]?.levels[i]);
      levels.push(isDoubtful || floats === 'anywhere' ? 'X' : floats === 'high' ? (plain === 'L' ? 'L' : 'H') : plain);
    }
    return { levels, plain: base.levels, cases };
  }

  /** Every state that may be; undefined if there are too many. */
  private casesOf(number: number, doubts: readonly number[] | undefined): number[] | undefined {
    let cases = [number];
    for (const [o, may] of doubts?.entries() ?? []) {
      if (may === 0) continue;
      const weight = this.weights[this.contacts.length + o] as number;
      cases = cases.flatMap((at) => [0, 1, 2].filter((pull) => (may >> pull) & 1).map((pull) => at + (pull - OFF) * weight));
      if (cases.length > MOST_CASES) return undefined;
    }
    return cases;
  }

  private set(number: number): void {
    for (const [i, { device, contact }] of this.contacts.entries())
      this.network.setConductance(device, 1 / (Math.floor(number / (this.weights[i] as number)) % 2 === 1 ? contact.on : contact.off));
    for (const [o, { device }] of this.outputs.entries())
      this.network.setPull(device, (Math.floor(number / (this.weights[this.contacts.length + o] as number)) % 3) as Pull);
  }

  private spread(terms: Float64Array, t: number, volts: number): void {
    const { places, x } = this;
    for (let node = 0; node < places.length; node++) {
      const place = places[node] as number;
      if (place >= 0) x[node] = valueAt(terms, place * TERMS, t);
    }
    x[this.rail] = volts;
    this.network.complete(x);
  }
}

function networkOf({ nodes, supply, loads, connect }: BlockPlan, mayFold: boolean) {
  const network = new Network(nodes + 2);
  const sites = connect(network);
  for (const [a, b] of loads) network.addConductance(a, b, METER);
  const feed = network.addSupply(nodes, GROUND, supply);
  network.seal(mayFold);
  network.switchSupply(feed, true);
  return { network, sites };
}
