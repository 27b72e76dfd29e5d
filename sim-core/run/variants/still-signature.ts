/** The signature of a bench whose rows follow from levels alone: nothing is made in the loop but what no bench before had. */
import type { Plan } from '../../../shared/plan.ts';
import { stripAt } from '../../board/tie-points.ts';
import type { MetalPlace } from './assembly.ts';
import type { BenchBlocks } from './bench-blocks.ts';
import { type BenchSignature, NO_LED, type ProbePoints, type SwitchRows } from './probe-points.ts';
import { StillBench } from './still-bench.ts';

/** Writes it; false where some row needs the event engine, and then what is written says nothing. */
export function stillSignature(blocks: BenchBlocks, plan: Plan, rows: SwitchRows, points: ProbePoints, into: BenchSignature): boolean {
  const bench = StillBench.of(blocks, plan);
  if (!bench) return false;
  if (rows.poles.some(({ part }, i) => blocks.supplies.has(part) && rows.rows.some((row) => ((row >>> i) & 1) === 0))) return false;
  const contacts = placesOf(blocks.blocks.map((b) => b.contacts.map(({ part, pole }) => `${part} ${pole}`)));
  const lit = placesOf(blocks.blocks.map((b) => b.leds));
  const poles = rows.poles.map(({ part, pole }) => contacts.get(`${part} ${pole}`));
  const leds = points.leds.map((id) => lit.get(id));
  const holes = points.holes.map((point) => blocks.at(stripAt(point, plan.boards)));
  for (let r = 0; r < rows.rows.length; r++) {
    const row = rows.rows[r] as number;
    for (let i = 0; i < poles.length; i++) {
      const at = poles[i];
      if (at) bench.setContact(at, ((row >>> i) & 1) === 1);
    }
    if (!bench.rest()) return false;
    for (let i = 0; i < leds.length; i++) {
      const at = leds[i];
      const looks = at && bench.looks(at.block);
      if (at && !looks) return false;
      into.leds[r * leds.length + i] = at && looks ? (looks[at.node] as number) : NO_LED;
    }
    for (let i = 0; i < holes.length; i++) {
      const at = holes[i];
      into.volts[r * holes.length + i] = at ? bench.volts(at) : Number.NaN;
    }
  }
  return true;
}

/** Names → where they are. */
const placesOf = (names: readonly (readonly string[])[]): ReadonlyMap<string, MetalPlace> =>
  new Map(names.flatMap((list, block) => list.map((name, node) => [name, { block, node }] as const)));
