/** Reads the whole bench at one moment, as meters and eyes would. */
import { GROUND, type Network, type Node, OFF, PULL_HIGH, PULL_LOW } from '../../devices/network.ts';
import { type Level, thresholdsOf } from '../../parts/part.ts';
import type { Possible } from '../analog/unknown-outputs.ts';
import type { BuiltCircuit } from '../built-circuit.ts';
import { type Circuit, meterNodes } from '../circuit/circuit.ts';
import type { ChipSite, LedSite } from '../circuit/sites.ts';
import { choicesAmong, levelAt } from '../digital/chip-runtime.ts';
import { isDecided, isSure, type RunningChip } from '../digital/chip-slot.ts';
import { pinLevel, pinPlaces } from './pin-level.ts';
import {
  BRIGHTNESSES,
  type Brightness,
  type ChipReading,
  type CoilReading,
  LED_STEPS,
  type LedReading,
  type NetReading,
  type PinReading,
  type Readings,
} from './readings.ts';

/** Below this a net is held by something that drives it; above the second nothing to speak of holds it [Ω]. Our choice. */
const DRIVEN = 500;
const FLOATING_OHMS = 2e6;
/** A net on which an output gives more than this without reaching its own level is being fought over [A]. Our choice. */
const CONTENTION = 1e-3;

/** switches: where the switches stand. */
export function measure(built: BuiltCircuit, switches: Readings['switches'], now: number): Readings {
  const { circuit, solver, runtime, droops } = built;
  const { network } = circuit;
  solver.complete();
  const x = solver.x;
  const lost = solver.lost();
  const choices = choicesAmong(runtime.all, () => true);
  const possible = choices.length > 0 ? built.unknownOutputs.possible(choices) : undefined;
  const at = (node: number): number => (node === GROUND ? 0 : (x[node] as number));
  const volts = (net: number): number => at(circuit.nodeOfNet[net] as number);
  const nets = readNets(built, volts, possible);
  return {
    time: now,
    nets,
    leds: readLeds(built, possible),
    chips: runtime.all.map((s, i) => {
      const dip = droops?.deepest[i];
      return { ...readChip(circuit, s, x, now, nets, possible), ...(dip ? { dip } : {}) };
    }),
    supplies: circuit.supplies.map(({ placed, device, plus, minus }) => {
      const amps = -network.current(device, x);
      const on = network.isOn(device);
      return {
        part: placed.part.id,
        on,
        volts: at(circuit.nodeOf(plus)) - at(circuit.nodeOf(minus)),
        amps: on ? amps : 0,
        limiting: on && amps >= network.supplyOf(device).amps * 0.999,
      };
    }),
    coils: circuit.coils.map((site): CoilReading => {
      const [, end] = network.nodesOf(site.device);
      const emf = at(end) - at(circuit.nodeOf(site.legs[1]));
      const amps = network.current(site.device, x);
      return { part: site.placed.part.id, amps, ...(site.turning ? { rpm: site.turning.rpmPerVolt * emf } : {}) };
    }),
    switches: { ...switches },
    ...(circuit.wires.length + circuit.innerNodes.length > 0 ? { nodes: [...x.subarray(0, network.n)] } : {}),
    meters: readMeters(circuit, network, x),
    probes: built.probes.read(nets),
    ...(lost === undefined ? {} : { unsolved: { net: circuit.netOfNode[lost] as number } }),
  };
}

function readNets(
  { circuit, solver, floatingInputs, runtime }: BuiltCircuit,
  volts: (net: number) => number,
  possible: Possible | undefined,
): NetReading[] {
  const ohms = circuit.nets.all.map((net) => floatingInputs.resistance(circuit.nodeOfNet[net.index] as number, solver.x));
  const bleed = new Float64Array(ohms.length);
  const everyOutput = (look: (slot: RunningChip, output: number, pin: ChipSite['outputs'][number], net: number) => void): void => {
    for (const slot of runtime.all) for (const [i, pin] of slot.site.outputs.entries()) look(slot, i, pin, circuit.netOf(pin.leg).index);
  };
  everyOutput((_, __, pin, net) => {
    bleed[net] = (bleed[net] as number) + pin.bleed;
  });
  // what an output's own stage takes holds nothing
  const isHeld = (net: number): boolean => 1 / (ohms[net] as number) - (bleed[net] as number) > 1 / FLOATING_OHMS;
  const drive = ohms.map((r, net): NetReading['drive'] => (r < DRIVEN ? 'driven' : isHeld(net) ? 'weak' : 'floating'));
  // each over the one before, for all chips: what is said of a net does not depend on the order of parts
  for (const { site, floating } of runtime.all)
    for (const [i, pin] of site.inputs.entries()) if (floating[i]) drive[circuit.netOf(pin.leg).index] = 'floating';
  everyOutput(({ site, may }, i, _, net) => {
    if (isSure(may[i] as number)) return;
    if (possible) spreadDoubt(circuit, site, i, drive, possible);
    // an output that may be high-impedance leaves the net to whatever else drives it
    if (((may[i] as number) >> OFF) & 1 && !isHeld(net)) drive[net] = 'unknown';
  });
  everyOutput(({ site, pull }, i, pin, net) => {
    if (pull[i] === OFF) return;
    const v = volts(net) - volts(circuit.netOf(site.ground.leg).index);
    const supply = volts(circuit.netOf(site.supply.leg).index) - volts(circuit.netOf(site.ground.leg).index);
    const { vil, vih } = thresholdsOf(site.spec.reaches ?? site.spec.input, supply);
    const reached = pull[i] === PULL_LOW ? v <= vil : v >= vih;
    if (!reached && Math.abs(circuit.network.current(pin.device, solver.x)) > CONTENTION) drive[net] = 'contention';
  });
  return circuit.nets.all.map((net) => ({
    volts: volts(net.index),
    drive: drive[net.index] as NetReading['drive'],
    ohms: ohms[net.index] as number,
  }));
}

/** Marks the nets of an unknown output's block that are not at one level in every case. */
function spreadDoubt(circuit: Circuit, site: ChipSite, output: number, drive: NetReading['drive'][], possible: Possible): void {
  const { nodeOfNet, partition } = circuit;
  const pin = site.outputs[output];
  if (!pin || pin.node === GROUND) return;
  const block = partition.blockOf(pin.node);
  for (const net of circuit.nets.all) {
    const node = nodeOfNet[net.index] as Node;
    if (node === GROUND || partition.blockOf(node) !== block || (block === -1 && node !== pin.node)) continue;
    if (levelIn(possible, circuit, site, node) === undefined) drive[net.index] = 'unknown';
  }
}

/** The level of a node by this chip's thresholds, if it is the same in every case; a level that is X in every case is one too. */
function levelIn(possible: Possible, circuit: Circuit, site: ChipSite, node: Node): Level | undefined {
  const figures = { ...site.spec.input, ...site.spec.reaches };
  const of = figures.of === undefined ? {} : { of: site.supply.node };
  return possible.agreed(circuit.partition.blockOf(node), (x) => levelAt(x, node, site, { figures, ...of }));
}

/** What a current looks like in this LED. */
const brightnessOf = (amps: number, site: LedSite): Brightness =>
  amps > site.led.mostCurrent.value ? 'overdriven' : amps >= LED_STEPS.lit ? 'lit' : amps >= LED_STEPS.dim ? 'dim' : 'dark';

/** That look's place in BRIGHTNESSES. */
export const brightnessPlace = (amps: number, site: LedSite): number => BRIGHTNESSES.indexOf(brightnessOf(amps, site));

/** Places in BRIGHTNESSES of all LEDs, in their order; without a new object while no output is unknown. */
export function measureBrightness(built: BuiltCircuit, into: Uint8Array): void {
  const { circuit, solver, runtime } = built;
  if (runtime.all.every(isDecided)) {
    for (let i = 0; i < circuit.leds.length; i++) {
      const site = circuit.leds[i] as LedSite;
      into[i] = brightnessPlace(circuit.network.flow(site.device, solver.x).i, site);
    }
    return;
  }
  solver.complete();
  const possible = built.unknownOutputs.possible(choicesAmong(runtime.all, () => true));
  for (const [i, led] of readLeds(built, possible).entries()) into[i] = BRIGHTNESSES.indexOf(led.brightness);
}

function readLeds({ circuit, solver }: BuiltCircuit, possible: Possible | undefined): LedReading[] {
  const { network } = circuit;
  const x = solver.x;
  const look = (site: LedSite, at: Float64Array) => brightnessOf(network.current(site.device, at), site);
  const blockOf = (site: LedSite) => Math.max(...network.nodesOf(site.device).map((n) => circuit.partition.blockOf(n)));
  return circuit.leds.map(
    (site): LedReading =>
      readLed(
        circuit,
        site,
        x,
        possible ? (possible.agreed(blockOf(site), (p) => look(site, p), network.nodesOf(site.device)) ?? 'unknown') : look(site, x),
      ),
  );
}

/** One LED at these node voltages [V], all of them filled in. */
export function readLed(circuit: Circuit, site: LedSite, x: Float64Array, brightness: Brightness): LedReading {
  const at = (node: number) => (node === GROUND ? 0 : (x[node] as number));
  return {
    led: site.id,
    part: site.placed.part.id,
    amps: circuit.network.current(site.device, x),
    volts: at(circuit.nodeOf(site.anode)) - at(circuit.nodeOf(site.cathode)),
    brightness,
  };
}

function readChip(
  circuit: Circuit,
  slot: RunningChip,
  x: Float64Array,
  now: number,
  nets: readonly NetReading[],
  possible: Possible | undefined,
): ChipReading {
  const { site, chip, may } = slot;
  const at = (node: number) => (node === GROUND ? 0 : (x[node] as number));
  const ground = at(site.ground.node);
  const state = chip.state(now);
  const pins = pinPlaces(site).map((place, i): PinReading => {
    const leg = site.placed.legs[i];
    const net = leg && circuit.netOf(leg);
    const device = site.outputs[place.output]?.device;
    const unsure = place.output >= 0 && !isSure(may[place.output] as number);
    // one without a level has none, whatever the chip's supply
    const doubtful = !slot.specified.on() && (place.input >= 0 || place.output >= 0) && net && nets[net.index]?.drive === 'unknown';
    /** the same in every case, whatever the output does */
    const anyway = (): Level =>
      (net && possible && nets[net.index]?.drive !== 'unknown' && levelIn(possible, circuit, site, circuit.nodeOfNet[net.index] as Node)) ||
      'X';
    return {
      pin: place.pin,
      volts: leg ? at(circuit.nodeOf(leg)) - ground : 0,
      level: unsure || doubtful ? anyway() : pinLevel(slot, place, state.doing),
      amps: device ? -circuit.network.current(device, x) : 0,
    };
  });
  return { part: site.placed.part.id, state, supply: at(site.supply.node) - ground, pins };
}

function readMeters(circuit: Circuit, network: Network, x: Float64Array): Record<string, number> {
  const readings: Record<string, number> = {};
  for (const meter of circuit.plan.meters) {
    if (meter.measures === 'volts') {
      const at = (node: number): number => (node === GROUND ? 0 : (x[node] as number));
      const tips = meterNodes(meter, circuit.interconnect);
      readings[meter.id] = tips ? at(tips[0]) - at(tips[1]) : 0;
    } else if (meter.measures === 'amps') readings[meter.id] = legCurrent(circuit, network, meter.leg, x);
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

/** Voltage of every node [V], from what was read; the last place is ground. */
export function voltagesOf({ network, nodeOfNet }: Circuit, { nets, nodes }: Readings): Float64Array {
  const x = new Float64Array(network.n + 1);
  if (nodes) x.set(nodes);
  else for (const [net, node] of nodeOfNet.entries()) if (node !== GROUND) x[node] = nets[net]?.volts ?? 0;
  return x;
}
