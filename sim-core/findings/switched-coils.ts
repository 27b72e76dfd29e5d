/** Which coils are switched, and by what: a transistor's collector, an output that only pulls down, a contact, straight or through resistors in series; and the diodes beside each. */
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
  /** the switch's own leg: there, or behind resistors in series */
  readonly at: Leg;
  /** nets from `near` to there, and what these resistors come to [Ω] */
  readonly nears: readonly number[];
  readonly series: number;
  /** most voltage that sheets allow it, and at which a typical one gives way [V]; neither for a contact */
  readonly most?: Figure;
  readonly gives?: number;
}

/** Between a switch and a coil is metal, or resistors that nothing else leads past. A coil may be switched at both ends. */
export function switchedCoils(circuit: Circuit): readonly SwitchedCoil[] {
  const net = (leg: Leg) => circuit.netOf(leg).index;
  const minus = new Set(circuit.supplies.map((s) => net(s.minus)));
  const switches = [...transistors(circuit), ...outputs(circuit), ...contacts(circuit)];
  return circuit.coils.flatMap((site) =>
    [site.legs, [site.legs[1], site.legs[0]] as const].flatMap(([near, far]) => {
      if (net(near) === net(far)) return [];
      // a transistor or an output pulls down; a contact may be on either side
      return seriesFrom(circuit, site, net(near)).flatMap(({ nears, series }) =>
        switches
          .filter((s) => net(s.at) === nears.at(-1) && s.at.part !== near.part)
          .map(({ at, ...limits }) => {
            const leavesNear = 'most' in limits || !minus.has(net(far));
            return { site, near, far, at, nears, series, ...limits, leavesNear };
          }),
      );
    }),
  );
}

/** The net at this end of a coil and those behind resistors in series: as long as a single one leads on and no supply holds the net. */
function seriesFrom(circuit: Circuit, coil: CoilSite, start: number): Pick<SwitchedCoil, 'nears' | 'series'>[] {
  const found: Pick<SwitchedCoil, 'nears' | 'series'>[] = [];
  let nears = [start];
  let series = 0;
  const moves = new Set([...circuit.contacts.map((c) => c.device), ...circuit.chips.flatMap((c) => [...c.contacts, c.drain])]);
  let came: Branch['device'] = coil.device;
  for (let here = start; !isHeld(circuit, here); here = nears.at(-1) ?? start) {
    found.push({ nears, series });
    const ways = circuit.branches.filter(
      (b) => b.device !== came && carries(b) && b.legs.filter((leg) => circuit.netOf(leg).index === here).length === 1,
    );
    const [on] = ways;
    if (!on || ways.length > 1 || on.device.kind !== 'conductance' || moves.has(on.device)) break;
    const to = on.legs.map((leg) => circuit.netOf(leg).index).find((n) => n !== here);
    if (to === undefined || nears.includes(to)) break;
    series += 1 / circuit.network.conductance(on.device);
    nears = [...nears, to];
    came = on.device;
  }
  return found;
}

/** Not a capacitor, nor a diode: those have no part in a coil's steady current, or are what is looked for. */
const carries = ({ device }: Branch): boolean => device.kind !== 'capacitor' && device.kind !== 'junction' && device.kind !== 'clamp';

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
  { nears, far, leavesNear }: SwitchedCoil,
): { right: readonly Branch[]; wrong: readonly Branch[] } {
  const other = [circuit.netOf(far).index];
  const [out, back] = leavesNear ? [nears, other] : [other, nears];
  const leds = new Set(circuit.leds.map((l) => l.device));
  const between = (a: readonly number[], b: readonly number[]) =>
    circuit.branches.filter(
      ({ device, legs }) =>
        device.kind === 'junction' &&
        !leds.has(device) &&
        a.includes(circuit.netOf(legs[0]).index) &&
        b.includes(circuit.netOf(legs[1]).index),
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
