/**
 * What overload does to parts: stress beyond an absolute maximum, summed over time, until the part is damaged and stays so.
 * A sheet promises nothing above its maxima and nothing kills a part at once, so the times below are our choice, from memory: they make twice the
 * maximum fatal in seconds and a brush with it harmless. Not modelled: heat spreading from part to part, ageing below the maximum.
 */
import type { PlanPart } from '../../shared/plan.ts';
import { GROUND } from '../devices/network.ts';
import type { Circuit } from './circuit.ts';

export type Damage = NonNullable<PlanPart['damaged']>;

/** What a part is being stressed by now. */
interface Stress {
  readonly part: string;
  readonly damage: Damage;
  /** parts of a life a second */
  readonly rate: number;
}

/** Time constants [s]: a lamp's junction, a resistor's body, a chip. */
const LAMP = 10;
const BODY = 10;
const CHIP = 0.5;
/** A supply pin this far below its ground pin [V] is reversed. */
const REVERSED = 0.3;

export interface Wear {
  /** voltages have come to rest at x; until the next call they stay so */
  settle(x: Float64Array, now: number): void;
  /** when the next part will be damaged if nothing changes [s]; Infinity: never */
  readonly due: number;
  /** that time has come: which part, and by what */
  take(now: number): { readonly part: string; readonly damage: Damage } | undefined;
  /** this part is gone, or another one stands in its place */
  forget(part: string): void;
}

export function makeWear(circuit: () => Circuit): Wear {
  /** by part and cause: the share of its life that is used up */
  const used = new Map<string, number>();
  let stresses: readonly Stress[] = [];
  let since = 0;
  let due = Number.POSITIVE_INFINITY;
  const key = (s: Stress) => `${s.part} ${s.damage.by}`;
  const left = (s: Stress) => 1 - (used.get(key(s)) ?? 0);
  const pass = (now: number) => {
    for (const s of stresses) used.set(key(s), (used.get(key(s)) ?? 0) + s.rate * (now - since));
    since = now;
  };
  return {
    get due() {
      return due;
    },
    settle(x, now) {
      pass(now);
      stresses = stressesAt(circuit(), x);
      due = now + Math.min(...stresses.map((s) => left(s) / s.rate), Number.POSITIVE_INFINITY);
    },
    take(now) {
      pass(now);
      const gone = stresses.find((s) => left(s) <= 1e-9);
      due = Number.POSITIVE_INFINITY;
      if (gone) used.delete(key(gone));
      return gone && { part: gone.part, damage: gone.damage };
    },
    forget(part) {
      for (const name of used.keys()) if (name.startsWith(`${part} `)) used.delete(name);
      stresses = stresses.filter((s) => s.part !== part);
    },
  };
}

function stressesAt({ network, lamps, branches, chips }: Circuit, x: Float64Array): Stress[] {
  const found: Stress[] = [];
  const volts = (node: number) => (node === GROUND ? 0 : (x[node] as number));
  const add = (part: string, by: Damage['by'], measured: number, limit: number, seconds: number, times: number) => {
    if (measured > limit) found.push({ part, damage: { by, measured, limit }, rate: ((measured / limit) ** times - 1) / seconds });
  };
  for (const { placed, lamp, device } of lamps) {
    const [a, b] = network.nodesOf(device);
    add(placed.part.id, 'current', network.current(device, x), lamp.mostCurrent.value, LAMP, 2);
    add(placed.part.id, 'reverse', volts(b) - volts(a), lamp.mostReverse.value, LAMP, 2);
  }
  for (const { placed, device } of branches) {
    const most = placed.kind.mostPower;
    if (!most || device.kind !== 'conductance') continue;
    add(placed.part.id, 'power', network.current(device, x) ** 2 / network.conductance(device), most.value, BODY, 1);
  }
  for (const { placed, spec, supply, ground } of chips) {
    const v = volts(supply.node) - volts(ground.node);
    add(placed.part.id, 'reverse', -v, REVERSED, CHIP, 1);
    if (spec.mostSupply) add(placed.part.id, 'supply', v, spec.mostSupply.value, CHIP, 2);
  }
  return found;
}
