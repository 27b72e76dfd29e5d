/** Which coils are switched, and by what: a transistor's collector, an output that only pulls down, a contact; and the diodes beside each. */
import type { Leg } from '../board/layout.ts';
import type { Figure } from '../parts/part.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Branch, CoilSite } from '../run/circuit/sites.ts';

export interface SwitchedCoil {
  readonly site: CoilSite;
  /** the coil's leg that the switch is at, and its other one */
  readonly near: Leg;
  readonly far: Leg;
  /** current leaves the coil at `near`; else it enters there */
  readonly leavesNear: boolean;
  /** the switch's own leg there */
  readonly at: Leg;
  /** most voltage that sheets allow it, and at which a typical one gives way [V]; neither for a contact */
  readonly most?: Figure;
  readonly gives?: number;
}

/** Found by nets: what is between a switch and a coil is metal. A coil may be switched at both ends. */
export function switchedCoils(circuit: Circuit): readonly SwitchedCoil[] {
  const net = (leg: Leg) => circuit.netOf(leg).index;
  const minus = new Set(circuit.supplies.map((s) => net(s.minus)));
  const switches = [...transistors(circuit), ...outputs(circuit), ...contacts(circuit)];
  return circuit.coils.flatMap((site) =>
    [site.legs, [site.legs[1], site.legs[0]] as const].flatMap(([near, far]) => {
      if (net(near) === net(far) || isHeld(circuit, net(near))) return [];
      // a transistor or an output pulls down; a contact may be on either side
      return switches
        .filter((s) => net(s.at) === net(near) && s.at.part !== near.part)
        .map(({ at, ...limits }) => ({ site, near, far, at, ...limits, leavesNear: 'most' in limits || !minus.has(net(far)) }));
    }),
  );
}

/** A supply's terminal keeps its voltage whatever is switched there. */
const isHeld = (circuit: Circuit, net: number): boolean =>
  circuit.supplies.some((s) => [s.plus, s.minus].some((leg) => circuit.netOf(leg).index === net));

type Switch = Pick<SwitchedCoil, 'at' | 'most' | 'gives'>;

const transistors = ({ branches }: Circuit): Switch[] =>
  branches.flatMap(({ placed, device, legs }) => {
    const { switches } = placed.kind;
    return device.kind === 'collector' && switches ? [{ at: legs[0], ...switches }] : [];
  });

const outputs = ({ chips }: Circuit): Switch[] =>
  chips.flatMap(({ spec, outputs: pins }) =>
    pins.flatMap(({ name, leg }) => {
      const most = spec.mostVolts?.[name];
      return spec.noUpperClamps && most ? [{ at: leg, most }] : [];
    }),
  );

/** Those of hands and those of relays. */
const contacts = (circuit: Circuit): Switch[] => [
  ...circuit.contacts.flatMap(({ legs }) => legs.map((at) => ({ at }))),
  ...circuit.chips.flatMap((chip) =>
    circuit.branches.filter((b) => chip.contacts.includes(b.device)).flatMap(({ legs }) => legs.map((at) => ({ at }))),
  ),
];

/** Diodes between the coil's two nets that carry its current on once it is switched off, and those the wrong way round; LEDs count as neither. */
export function diodesAcross(
  circuit: Circuit,
  { near, far, leavesNear }: SwitchedCoil,
): { right: readonly Branch[]; wrong: readonly Branch[] } {
  const [out, back] = (leavesNear ? [near, far] : [far, near]).map((leg) => circuit.netOf(leg).index);
  const leds = new Set(circuit.leds.map((l) => l.device));
  const between = (a: number | undefined, b: number | undefined) =>
    circuit.branches.filter(
      ({ device, legs }) =>
        device.kind === 'junction' && !leds.has(device) && circuit.netOf(legs[0]).index === a && circuit.netOf(legs[1]).index === b,
    );
  return { right: between(out, back), wrong: between(back, out) };
}

/** Least resistance beside the coil, from net to net [Ω]; Infinity: none. */
export function ohmsAcross(circuit: Circuit, { near, far }: SwitchedCoil): number {
  const ends = [near, far].map((leg) => circuit.netOf(leg).index);
  const beside = circuit.branches.filter(
    ({ device, legs }) =>
      device.kind === 'conductance' && legs.every((leg) => ends.includes(circuit.netOf(leg).index)) && legs[0] !== legs[1],
  );
  const joins = beside.filter(({ legs: [a, b] }) => circuit.netOf(a).index !== circuit.netOf(b).index);
  return Math.min(Number.POSITIVE_INFINITY, ...joins.map((b) => 1 / circuit.network.conductance(b.device)));
}
