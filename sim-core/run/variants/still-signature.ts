/** The signature of a bench whose rows follow from levels alone: nothing is made in the loop but what no bench before had. */
import type { Plan } from '../../../shared/plan.ts';
import { stripAt } from '../../board/tie-points.ts';
import { type MetalPlace, RAILED } from './assembly.ts';
import type { BenchBlock, BenchBlocks } from './bench-blocks.ts';
import { type BenchSignature, NO_LED, type ProbePoints, type SwitchRows } from './probe-points.ts';
import { StillBench } from './still-bench.ts';

/** Writes it; the answer is the rows that need the event engine, in which what is written says nothing. */
export function stillSignature(blocks: BenchBlocks, plan: Plan, rows: SwitchRows, points: ProbePoints, into: BenchSignature): number[] {
  const bench = StillBench.of(blocks, plan);
  // what a supply that is switched does is more than blocks
  const isMoved = rows.poles.some(({ part, pole }, i) => {
    const isOn = plan.switches[part]?.[pole] === true;
    return blocks.supplies.has(part) && rows.rows.some((row) => ((row >>> i) & 1) === (isOn ? 0 : 1));
  });
  if (!bench || isMoved) return [...rows.rows.keys()];
  const contacts = contactPlaces(blocks);
  const poles = rows.poles.map(({ part, pole }) => contacts.get(`${part} ${pole}`));
  const lit = new Map(blocks.blocks.flatMap(({ leds }, block) => leds.map((id, node) => [id, { block, node }] as const)));
  const leds = points.leds.map((id) => lit.get(id));
  const holes = points.holes.map((point) => blocks.at(stripAt(point, plan.boards)));
  const left: number[] = [];
  for (let r = 0; r < rows.rows.length; r++) {
    const row = rows.rows[r] as number;
    for (let i = 0; i < poles.length; i++) {
      const at = poles[i];
      if (at) bench.setContact(at, ((row >>> i) & 1) === 1);
    }
    if (!bench.rest() || !writeLooks(bench, leds, into.leds, r * leds.length)) {
      left.push(r);
      continue;
    }
    for (let i = 0; i < holes.length; i++) {
      const at = holes[i];
      into.volts[r * holes.length + i] = at ? bench.volts(at) : Number.NaN;
    }
  }
  return left;
}

/** From this place on; false if one cannot be had. */
function writeLooks(bench: StillBench, leds: readonly (MetalPlace | undefined)[], into: Uint8Array, from: number): boolean {
  for (let i = 0; i < leds.length; i++) {
    const at = leds[i];
    const looks = at && bench.looks(at.block);
    if (at && !looks) return false;
    into[from + i] = at && looks ? (looks[at.node] as number) : NO_LED;
  }
  return true;
}

/** By part and pole. */
function contactPlaces({ blocks, rails }: BenchBlocks): ReadonlyMap<string, MetalPlace> {
  const places = new Map<string, MetalPlace>();
  const put = (contacts: BenchBlock['contacts'], block: number) => {
    for (const [node, { part, pole }] of contacts.entries()) places.set(`${part} ${pole}`, { block, node });
  };
  for (const [block, { contacts }] of blocks.entries()) put(contacts, block);
  for (const [r, { contacts }] of rails.entries()) put(contacts, RAILED - r);
  return places;
}
