/** Two supplies with no terminal in common, although parts are connected to both: no current returns from one to the other. */

import { joinMinus } from '../../../fixes/join.ts';
import type { Circuit } from '../../../run/circuit/circuit.ts';
import type { SupplySite } from '../../../run/circuit/sites.ts';
import { type Ref, say } from '../../../sentence/wording.ts';
import { compareTexts } from '../../../units/text-list.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { METAL, reachOf } from '../../resistive-reach.ts';
import { defineRule, toPart, toPin } from '../../rule.ts';

interface Data {
  readonly supply: Ref;
  readonly first: Ref;
  /** their minus terminals */
  readonly minus: Ref;
  readonly firstMinus: Ref;
}

export const groundsNotConnected = defineRule<Data>({
  code: 'supply/grounds-not-connected',
  severity: 'fault',
  reads: 'wiring',
  look(circuit) {
    const [first, ...others] = [...circuit.supplies].sort((a, b) => compareTexts(a.placed.part.id, b.placed.part.id));
    if (!first) return [];
    const worldOf = worlds(circuit);
    const near = joinedTo(circuit, first);
    return others
      .filter((s) => worldOf(s) === worldOf(first) && !terminals(circuit, s).some((net) => near.has(net)))
      .map((s) => ({ supply: toPart(s.placed), first: toPart(first.placed), minus: toPin(s.minus), firstMinus: toPin(first.minus) }));
  },
  message: ({ supply, first, minus, firstMinus }) =>
    say`${supply} and ${first} have no common ground: no current returns from one to the other, and a level of one means nothing to the other. Connect ${minus} and ${firstMinus} with a wire.`,
  fixes: ({ minus, firstMinus }, bench) => joinMinus(bench, minus, firstMinus),
});

const terminals = (circuit: Circuit, s: SupplySite): number[] => [s.plus, s.minus].map((leg) => circuit.netOf(leg).index);

/** Nets that metal joins to a terminal of this supply, through other supplies' terminals too. */
function joinedTo(circuit: Circuit, supply: SupplySite): ReadonlySet<number> {
  const reach = reachOf(circuit);
  const found = new Set<number>();
  const waiting = terminals(circuit, supply);
  for (let net = waiting.pop(); net !== undefined; net = waiting.pop()) {
    for (const [there, ohms] of reach.from(net, 'no LEDs')) if (ohms < METAL) found.add(there);
    for (const s of circuit.supplies) {
      const ends = terminals(circuit, s);
      if (ends.some((e) => found.has(e))) for (const e of ends) if (!found.has(e)) waiting.push(e);
    }
  }
  return found;
}

/** Supplies have one world if something, whatever it is, leads from one to the other: every part counts as joining all its legs. */
function worlds(circuit: Circuit): (s: SupplySite) => number {
  const parent = circuit.nets.all.map((net) => net.index);
  const root = (net: number): number => {
    let r = net;
    while (parent[r] !== r) r = parent[r] as number;
    return r;
  };
  for (const { legs } of circuit.placed.values())
    for (const leg of legs.slice(1)) parent[root(circuit.netOf(leg).index)] = root(circuit.netOf(legs[0] ?? leg).index);
  return (s) => root(circuit.netOf(s.plus).index);
}

const bench = (): string => `
  ${FED}
  bench-supply PS2 5
  wire WP2 red from PS2.+ to +a1
  wire WN2 black from PS2.- to -a1
  switch PS2 set 1
  resistor R1 330 from b10 to +a5
  led LED1 from a10 to a14
  wire W1 from b14 to -j3`;

export const groundsNotConnectedExamples = (): RuleExamples => ({
  bad: { points: 'PS2', bench: bench() },
  good: { bench: `${bench()}\nwire WJ black from -a2 to -j4` },
});
