/** What a bench shows in some settings of its switches, as numbers in arrays that are made once: the looks of its LEDs, and voltages. */
import { GROUND, type Node } from '../../devices/network.ts';
import type { Simulation } from '../api.ts';
import { BRIGHTNESSES } from '../readout/readings.ts';
import { type BenchSignature, NO_LED, type ProbePoints, type SwitchPole, type SwitchRows } from './probe-points.ts';
import { stillSignature } from './still-signature.ts';
import type { Variant } from './variant.ts';

/** The look of an LED in a row that does not come to rest. */
const UNKNOWN = BRIGHTNESSES.indexOf('unknown');

/** Writes what the variant shows in these rows at these points; false if it does not come to rest in some row. Poles that it does not have are left out. */
export function signature(of: Variant, rows: SwitchRows, points: ProbePoints, into: BenchSignature): boolean {
  const blocks = of.blocks();
  const left = blocks ? stillSignature(blocks, of.plan, rows, points, into) : [...rows.rows.keys()];
  return left.length === 0 || new EventSignature(of.bench(), rows, points).write(left, into);
}

/** By the event engine, one switch after the other. */
class EventSignature {
  private readonly poles: readonly (SwitchPole & { readonly bit: number; readonly closed: boolean })[];
  private readonly leds: Int32Array;
  private readonly nodes: readonly (Node | undefined)[];
  private readonly seen: Uint8Array;
  private readonly volts: Float64Array;

  constructor(
    private readonly sim: Simulation,
    private readonly asked: SwitchRows,
    points: ProbePoints,
  ) {
    const { circuit } = sim;
    const { switches } = sim.plan();
    this.poles = asked.poles.flatMap(({ part, pole }, bit) => {
      const isThere = circuit.contactsById.get(part)?.[pole] !== undefined || (pole === 0 && circuit.supplyById.has(part));
      return isThere ? [{ part, pole, bit, closed: switches[part]?.[pole] ?? false }] : [];
    });
    const places = new Map(circuit.leds.map((led, i) => [led.id, i]));
    this.leds = Int32Array.from(points.leds, (id) => places.get(id) ?? -1);
    this.nodes = points.holes.map((hole) => circuit.interconnect.atPoint(hole)?.node);
    this.seen = new Uint8Array(circuit.leds.length);
    this.volts = new Float64Array(circuit.network.n + 1);
  }

  /** These rows alone. */
  write(places: readonly number[], { leds, volts }: BenchSignature): boolean {
    const { rows } = this.asked;
    let rests = true;
    for (const r of places) {
      const isAtRest = this.stand((bit) => ((rows[r] as number) >>> bit) % 2 === 1);
      rests &&= isAtRest;
      this.sim.brightnesses(this.seen);
      this.sim.voltages(this.volts);
      for (const [i, place] of this.leds.entries())
        leds[r * this.leds.length + i] = place < 0 ? NO_LED : isAtRest ? (this.seen[place] as number) : UNKNOWN;
      for (const [i, node] of this.nodes.entries())
        volts[r * this.nodes.length + i] =
          node === undefined || !isAtRest ? Number.NaN : node === GROUND ? 0 : (this.volts[node] as number);
    }
    this.stand((_, closed) => closed);
    return rests;
  }

  private stand(isClosed: (bit: number, asFound: boolean) => boolean): boolean {
    for (const { part, pole, bit, closed } of this.poles) this.sim.begin({ do: 'set', part, pole, closed: isClosed(bit, closed) });
    return this.sim.rest();
  }
}
