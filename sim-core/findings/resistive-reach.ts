/**
 * What a net is joined to by resistance alone: the least ohms of any one path of resistors, coils, contacts and LEDs to every net in reach.
 * A path ends where something of its own strength holds the net: a supply's terminal or a chip's output.
 */
import type { Nets } from '../board/nets.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Branch, ChipSite, ContactSite, SupplySite } from '../run/circuit/sites.ts';

/**
 * Below this many ohms two nets count as joined by metal. Our choice: from 5 V it lets through more than any LED of the catalogue may carry
 * (white: (5 − 3.4) V / (50 + 10) Ω = 27 mA against 25 mA; red: 55 mA against 30 mA).
 */
export const METAL = 50;

/** which way an LED may be passed: with its current, against it, or not at all */
export type ResistivePath = 'with' | 'against' | 'no LEDs';

interface Step {
  readonly to: number;
  readonly ohms: number;
  /** of an LED: anode to cathode, or back */
  readonly led?: 'with' | 'against';
  readonly contact?: ContactSite;
  readonly branch: Branch;
}

export interface Reach {
  /** nets of supplies' plus terminals, of their minus terminals, of chips' outputs */
  readonly plus: ReadonlySet<number>;
  readonly minus: ReadonlySet<number>;
  readonly outputs: ReadonlySet<number>;
  /** net → least ohms, the start itself 0; `open` leaves these contacts out, otherwise all count as closed */
  from(net: number, way: ResistivePath, open?: (c: ContactSite) => boolean): ReadonlyMap<number, number>;
}

const known = new WeakMap<Nets, Reach>();

/** Found once per wiring. */
export function reachOf(circuit: Circuit): Reach {
  const before = known.get(circuit.nets);
  if (before) return before;
  const made = makeReach(circuit);
  known.set(circuit.nets, made);
  return made;
}

function makeReach(circuit: Circuit): Reach {
  const net = (leg: Branch['legs'][number]) => circuit.netOf(leg).index;
  const steps: Step[][] = circuit.nets.all.map(() => []);
  const chips = new Set(circuit.chips.map((c) => c.placed));
  const contacts = new Map(circuit.contacts.map((c) => [c.device, c]));
  for (const branch of circuit.branches) {
    if (chips.has(branch.placed) && branch.device.kind !== 'coil') continue;
    const [a, b] = [net(branch.legs[0]), net(branch.legs[1])];
    if (a === b) continue;
    const contact = contacts.get(branch.device);
    if (branch.device.kind === 'conductance' || branch.device.kind === 'coil') {
      const ohms =
        branch.device.kind === 'coil'
          ? circuit.network.ohmsOf(branch.device)
          : contact
            ? contact.contact.on
            : 1 / circuit.network.conductance(branch.device);
      for (const [from, to] of [
        [a, b],
        [b, a],
      ] as const)
        steps[from]?.push({ to, ohms, branch, ...(contact ? { contact } : {}) });
    } else if (branch.device.kind === 'junction') {
      steps[a]?.push({ to: b, ohms: 0, led: 'with', branch });
      steps[b]?.push({ to: a, ohms: 0, led: 'against', branch });
    }
  }
  const plus = new Set(circuit.supplies.map((s) => net(s.plus)));
  const minus = new Set(circuit.supplies.map((s) => net(s.minus)));
  const outputs = new Set(circuit.chips.flatMap((c) => c.outputs.map((o) => net(o.leg))));
  const stops = new Set([...plus, ...minus, ...outputs]);
  return {
    plus,
    minus,
    outputs,
    from(start, way, open) {
      const least = new Map([[start, 0]]);
      const waiting = [start];
      for (let here = waiting.pop(); here !== undefined; here = waiting.pop()) {
        if (here !== start && stops.has(here)) continue;
        const soFar = least.get(here) ?? 0;
        for (const step of steps[here] ?? []) {
          if (step.led && step.led !== way) continue;
          if (step.contact && open?.(step.contact)) continue;
          const ohms = soFar + step.ohms;
          if (ohms >= (least.get(step.to) ?? Number.POSITIVE_INFINITY)) continue;
          least.set(step.to, ohms);
          waiting.push(step.to);
        }
      }
      return least;
    },
  };
}

/** The nearest of these nets and its ohms; ties go to the one found first. */
export function nearest(reached: ReadonlyMap<number, number>, among: ReadonlySet<number>): { net: number; ohms: number } | undefined {
  let best: { net: number; ohms: number } | undefined;
  for (const [net, ohms] of reached) if (among.has(net) && (!best || ohms < best.ohms)) best = { net, ohms };
  return best;
}

/** Which side of a supply each of a chip's two supply pins is joined to by metal, all switches closed. */
export function feedOf(circuit: Circuit, chip: ChipSite): { supply: Feed; ground: Feed } {
  const reach = reachOf(circuit);
  const side = (net: number): Feed => {
    const near = new Set([...reach.from(net, 'no LEDs')].filter(([, ohms]) => ohms < METAL).map(([n]) => n));
    const of = (site: SupplySite, leg: SupplySite['plus']) => (near.has(circuit.netOf(leg).index) ? [site] : []);
    return { plus: circuit.supplies.flatMap((s) => of(s, s.plus)), minus: circuit.supplies.flatMap((s) => of(s, s.minus)) };
  };
  return { supply: side(circuit.netOf(chip.supply.leg).index), ground: side(circuit.netOf(chip.ground.leg).index) };
}
export interface Feed {
  readonly plus: readonly SupplySite[];
  readonly minus: readonly SupplySite[];
}
