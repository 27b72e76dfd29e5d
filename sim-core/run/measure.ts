/** Reads the whole bench at one moment, as meters and eyes would. */
import { GROUND, type Network, OFF, PULL_HIGH, PULL_LOW } from '../devices/network.ts';
import { thresholdsOf } from '../parts/part.ts';
import { makeNewton, newton } from '../solve/newton.ts';
import { type Circuit, type LampSite, meterNets } from './circuit.ts';
import type { Holding } from './holding.ts';
import type { Physics } from './physics.ts';
import { type ChipReading, type Glow, LAMP_STEPS, type LampReading, type NetReading, type PinReading, type Readings } from './readings.ts';
import type { Socket, Sockets } from './sockets.ts';

interface Rig {
  readonly circuit: Circuit;
  readonly physics: Physics;
  readonly holding: Holding;
  readonly sockets: Sockets;
}

/** Below this a net is held by something that drives it; above the second nothing to speak of holds it [Ω]. Our choice. */
const DRIVEN = 500;
const AIR_OHMS = 2e6;
/** A net on which an output gives more than this without reaching its own level is being fought over [A]. Our choice. */
const FIGHT = 1e-3;

/** hands: where the switches stand. */
export function measure(rig: Rig, hands: Readings['hands'], now: number): Readings {
  const { circuit, physics, sockets } = rig;
  const { network } = circuit;
  physics.complete();
  const x = physics.x;
  const volts = (net: number): number => {
    const node = circuit.nodeOfNet[net] as number;
    return node === GROUND ? 0 : (x[node] as number);
  };
  return {
    time: now,
    nets: readNets(rig, volts),
    lamps: readLamps(rig),
    chips: sockets.all.map((s) => readChip(circuit, s, x, now)),
    supplies: circuit.supplies.map(({ placed, device, plus, minus }) => {
      const amps = -network.current(device, x);
      const on = network.isOn(device);
      return {
        part: placed.part.id,
        on,
        volts: volts(circuit.netOf(plus).index) - volts(circuit.netOf(minus).index),
        amps: on ? amps : 0,
        limiting: on && amps >= network.supplyOf(device).amps * 0.999,
      };
    }),
    hands: { ...hands },
    meters: readMeters(circuit, volts, network, x),
    ...(physics.lost === undefined ? {} : { unsolved: { net: circuit.netOfNode[physics.lost] as number } }),
  };
}

function readNets({ circuit, physics, holding, sockets }: Rig, volts: (net: number) => number): NetReading[] {
  const ohms = circuit.nets.all.map((net) => holding.resistance(circuit.nodeOfNet[net.index] as number, physics.x));
  const held = ohms.map((r): NetReading['held'] => (r < DRIVEN ? 'driven' : r < AIR_OHMS ? 'weak' : 'air'));
  for (const { site, floating, pull, known } of sockets.all) {
    for (const [i, pin] of site.inputs.entries()) if (floating[i]) held[circuit.netOf(pin.leg).index] = 'air';
    for (const [i, pin] of site.outputs.entries()) {
      const net = circuit.netOf(pin.leg).index;
      if (!known[i]) held[net] = 'unknown';
      else if (pull[i] === OFF) continue;
      const v = volts(net) - volts(circuit.netOf(site.ground.leg).index);
      const supply = volts(circuit.netOf(site.supply.leg).index) - volts(circuit.netOf(site.ground.leg).index);
      const { vil, vih } = thresholdsOf(site.spec.reaches ?? site.spec.input, supply);
      const reached = pull[i] === PULL_LOW ? v <= vil : v >= vih;
      if (!reached && Math.abs(circuit.network.current(pin.device, physics.x)) > FIGHT) held[net] = 'fight';
    }
  }
  return circuit.nets.all.map((net) => ({
    volts: volts(net.index),
    held: held[net.index] as NetReading['held'],
    ohms: ohms[net.index] as number,
  }));
}

/** What a current looks like in this lamp. */
const glowOf = (amps: number, site: LampSite): Glow =>
  amps > site.lamp.mostCurrent.value ? 'over' : amps >= LAMP_STEPS.lit ? 'lit' : amps >= LAMP_STEPS.dim ? 'dim' : 'dark';

function readLamps({ circuit, physics, sockets }: Rig): LampReading[] {
  const { network } = circuit;
  const x = physics.x;
  const seen = circuit.lamps.map((site) => glowOf(network.current(site.device, x), site));
  for (const extreme of extremes(circuit, sockets.all, x))
    for (const [i, site] of circuit.lamps.entries())
      if (glowOf(network.current(site.device, extreme), site) !== seen[i]) seen[i] = 'undecided';
  return circuit.lamps.map((site, i): LampReading => {
    const at = (node: number) => (node === GROUND ? 0 : (x[node] as number));
    const node = (leg: typeof site.anode) => circuit.nodeOfNet[circuit.netOf(leg).index] as number;
    return {
      lamp: site.id,
      part: site.placed.part.id,
      amps: network.current(site.device, x),
      volts: at(node(site.anode)) - at(node(site.cathode)),
      glow: seen[i] as Glow,
    };
  });
}

/** Where the bench would rest if every output of unknown value were low, and if it were high; nothing when all are known. */
function extremes(circuit: Circuit, sockets: readonly Socket[], x: Float64Array): Float64Array[] {
  const doubtful = sockets.flatMap((s) => s.site.outputs.filter((_, i) => !s.known[i]));
  if (doubtful.length === 0) return [];
  const { network } = circuit;
  const before = doubtful.map((o) => network.pullOf(o.device));
  const answers = [PULL_LOW, PULL_HIGH].map((pull) => {
    for (const o of doubtful) network.setPull(o.device, pull as typeof PULL_LOW);
    const at = x.slice();
    newton(makeNewton(network as Network), at);
    return at;
  });
  doubtful.forEach((o, i) => {
    network.setPull(o.device, before[i] ?? OFF);
  });
  return answers;
}

function readChip(circuit: Circuit, socket: Socket, x: Float64Array, now: number): ChipReading {
  const { site, chip, level, pull, known } = socket;
  const at = (node: number) => (node === GROUND ? 0 : (x[node] as number));
  const ground = at(site.ground.node);
  const state = chip.state(now);
  const pins = site.placed.kind.pins(site.placed.params).map(({ pin, name }, i): PinReading => {
    const leg = site.placed.legs[i];
    const volts = leg ? at(circuit.nodeOfNet[circuit.netOf(leg).index] as number) - ground : 0;
    const output = site.outputs.findIndex((o) => o.name === name);
    const input = site.inputs.findIndex((p) => p.name === name);
    const device = site.outputs[output]?.device;
    const driven = output >= 0 && (pull[output] !== OFF || !known[output]);
    return {
      pin,
      volts,
      level: driven
        ? known[output]
          ? pull[output] === PULL_HIGH
            ? 'H'
            : 'L'
          : 'X'
        : output >= 0 && (input < 0 || state.doing !== 'ready to write')
          ? 'Z'
          : (level[input] ?? null),
      amps: device ? -circuit.network.current(device, x) : 0,
    };
  });
  return { part: site.placed.part.id, state, supply: at(site.supply.node) - ground, pins };
}

function readMeters(circuit: Circuit, volts: (net: number) => number, network: Network, x: Float64Array): Record<string, number> {
  const readings: Record<string, number> = {};
  for (const meter of circuit.plan.meters) {
    if (meter.measures === 'volts') {
      const points = meterNets(meter, circuit.layout, circuit.nets);
      readings[meter.id] = points ? volts(points[0].index) - (points[1] ? volts(points[1].index) : 0) : 0;
    } else readings[meter.id] = legCurrent(circuit, network, meter.leg, x);
  }
  return readings;
}

/** Current [A] from the net into this leg ('R3.1'). */
export function legCurrent(circuit: Circuit, network: Network, name: string, x: Float64Array): number {
  let sum = 0;
  for (const b of circuit.branches) {
    const [a, low] = b.legs;
    const z = b.whenHigh && network.pullOf(b.device) === PULL_HIGH ? b.whenHigh : low;
    const i = network.current(b.device, x);
    if (`${a.part.id}.${a.pin}` === name) sum += i;
    if (`${z.part.id}.${z.pin}` === name) sum -= i;
  }
  return sum;
}
