/** From parts to primitives: what each part's wiring adds to the network, and the sites by which it is known afterwards. */
import type { Leg } from '../../board/layout.ts';
import type { Device, Network, Node } from '../../devices/network.ts';
import { NOTHING } from '../../parts/figures/channels.ts';
import type { ChipSpec, Drive, InputFigures, Led, SupplyCurrent, Turning, WindingModel, Wiring } from '../../parts/part.ts';
import type { Branch, ChipInput, ChipPin, ChipSite, CoilSite, ContactSite, InnerNode, LedSite, Placed, SupplySite } from './sites.ts';

/** Where the sites of a circuit are collected. */
interface Collected {
  readonly leds: LedSite[];
  readonly contacts: ContactSite[];
  readonly supplies: SupplySite[];
  readonly chips: ChipSite[];
  readonly coils: CoilSite[];
  readonly branches: Branch[];
}

/** Collects the sites while parts are connected, one `wiringFor` each. */
export function makeSiteBuilder(network: Network, drive: 'typical' | 'guaranteed', nodeOf: (leg: Leg) => Node, varied: boolean) {
  const sites: Collected = { leds: [], contacts: [], supplies: [], chips: [], coils: [], branches: [] };
  const innerNodes: InnerNode[] = [];
  const wiringFor = (placed: Placed): Wiring => wiringOf(placed, { network, drive, nodeOf, varied, sites, innerNodes });
  return { wiringFor, sites, innerNodes };
}

interface Builder {
  readonly network: Network;
  readonly drive: 'typical' | 'guaranteed';
  nodeOf(leg: Leg): Node;
  /** its parts may differ from what the plan says */
  readonly varied: boolean;
  readonly sites: Collected;
  readonly innerNodes: InnerNode[];
}

function wiringOf(placed: Placed, builder: Builder): Wiring {
  const { network, drive, nodeOf, sites, innerNodes } = builder;
  const { branches } = sites;
  // what is guaranteed of a leak is the most of it
  const worst = drive === 'guaranteed';
  const legOf = (pin: string): Leg => {
    const leg = placed.legs.find((l) => l.pin === pin);
    if (!leg) throw new Error(`${placed.kind.id} wires pin ${pin}, which its footprint does not have`);
    return leg;
  };
  const branch = (a: string, b: string, make: (a: Node, b: Node) => Device): Branch => {
    const legs = [legOf(a), legOf(b)] as const;
    const made: Branch = { placed, legs, device: make(nodeOf(legs[0]), nodeOf(legs[1])) };
    branches.push(made);
    return made;
  };
  return {
    conductor: (a, b, siemens, most = siemens) => void branch(a, b, (i, j) => network.addConductance(i, j, worst ? most : siemens)),
    capacitor: (a, b, farads) => void branch(a, b, (i, j) => network.addCapacitor(i, j, farads)),
    junction(a, b, j, led) {
      // one of several LEDs in a body, burnt open
      if (led && placed.part.damaged?.pins?.includes(ownPin(placed, led, a))) return;
      const { device, legs } = branch(a, b, (p, q) => network.addJunction(p, q, j));
      const [anode, cathode] = legs;
      const id = led?.name ? `${placed.part.id}.${led.name}` : placed.part.id;
      if (led) sites.leds.push({ id, placed, led, junction: j, device, anode, cathode });
    },
    contact(a, b, pole, contact) {
      const own = worst ? { ...contact, off: contact.leastOff } : contact;
      const { device, legs } = branch(a, b, (i, j) => network.addConductance(i, j, 1 / own.off, true));
      sites.contacts.push({ placed, pole, contact: own, device, legs });
    },
    supply(plus, minus, s) {
      const { device, legs } = branch(plus, minus, (i, j) => network.addSupply(i, j, s));
      sites.supplies.push({ placed, device, plus: legs[0], minus: legs[1] });
    },
    transistor(collector, base, emitter, model) {
      const [c, b, e] = [legOf(collector), legOf(base), legOf(emitter)];
      const [main, steering] = network.addTransistor(nodeOf(c), nodeOf(b), nodeOf(e), model);
      branches.push({ placed, device: main, legs: [c, e] }, { placed, device: steering, legs: [b, e] });
    },
    coil(a, b, model, turning) {
      const kept = (node: Node, turn: number) => innerNodes.push({ node, placed, leg: legOf(a), turn });
      const { device, legs } = branch(a, b, (i, j) => placeWinding(network, [i, j], model, turning, kept));
      sites.coils.push({ placed, device, legs, model, ...(turning ? { turning } : {}) });
    },
    chip(spec) {
      sites.chips.push(placeChip(placed, spec, builder));
    },
  };
}

/** A winding, and behind it its shaft if it has one; each node inside is told with its turn. */
function placeWinding(
  network: Network,
  [a, b]: readonly [Node, Node],
  model: WindingModel,
  turning: Turning | undefined,
  kept: (node: Node, turn: number) => void,
): Device {
  const end = turning ? network.addNode() : b;
  const made = network.addCoil(a, end, model);
  network.addCapacitor(a, end, model.farads);
  kept(network.innerNodeOf(made), 0);
  if (!turning) return made;
  kept(end, 1);
  network.addCapacitor(end, b, turning.farads);
  network.addConductance(end, b, turning.siemens);
  return made;
}

/** The pin that stands for one of several LEDs in a body: the one that bears its name, or its anode. */
export function ownPin({ kind, params }: Placed, led: Led, anode: string): string {
  const pins = kind.pins(params);
  return (pins.find((p) => p.name === led.name) ?? pins.find((p) => p.pin === anode))?.name ?? led.name;
}

/** What is left of a burnt output. */
const OPEN = { low: NOTHING, high: NOTHING };
const BURNT: Drive = { typical: OPEN, guaranteed: OPEN };

const figuresOf = (spec: ChipSpec, name: string): InputFigures => spec.special?.[name] ?? spec.input;

const perVolt = ({ working, resting }: SupplyCurrent): SupplyCurrent => ({ working: working / 5, resting: resting / 5 });

/** What wires and the supply's own resistance may take from a supply that is set to the least of a chip's range, as a part of it; our choice. */
const TAKEN = 0.01;
/** A supply that is tried at its bounds may leave the range by so much, as a part of its least: 5 V ± 10 % at LS; another rule speaks of that. Our choice. */
const VARIED = 0.1;

function placeChip(placed: Placed, spec: ChipSpec, { network, drive, nodeOf, varied, sites: { branches, coils } }: Builder): ChipSite {
  const pins = placed.kind.pins(placed.params);
  const pinNamed = (name: string): ChipPin => {
    const leg = placed.legs[pins.findIndex((p) => p.name === name)];
    if (!leg) throw new Error(`${placed.kind.id} has no pin named ${name}`);
    return { name, leg, node: nodeOf(leg) };
  };
  const supply = pinNamed(spec.supplyPin);
  const ground = pinNamed(spec.groundPin);
  const keep = (a: ChipPin, b: ChipPin, device: Device, whenHigh?: ChipPin): Device => {
    branches.push({ placed, legs: [a.leg, b.leg], device, ...(whenHigh ? { whenHigh: whenHigh.leg } : {}) });
    return device;
  };
  const marks = (spec.marks ?? []).map(({ pin }) => pinNamed(pin));
  const names = new Set([...spec.inputs, ...spec.outputs, ...marks.map((m) => m.name)]);
  const burnt = new Set(placed.part.damaged?.pins ?? []);
  for (const name of names) {
    if (burnt.has(name)) continue;
    const pin = pinNamed(name);
    const farads = spec.outputs.includes(name) ? spec.released.capacitance : figuresOf(spec, name).capacitance;
    network.addCapacitor(pin.node, ground.node, farads);
    keep(ground, pin, network.addClamp(ground.node, pin.node));
    if (!spec.noUpperClamps && !marks.some((m) => m.name === name)) keep(pin, supply, network.addClamp(pin.node, supply.node));
  }
  // reversed, it conducts from its ground pin to its supply pin
  keep(ground, supply, network.addClamp(ground.node, supply.node));
  const driveOf = (name: string): Drive => (burnt.has(name) ? BURNT : (spec.specialDrive?.[name] ?? spec.drive));
  const nodeNamed = (of: 'supply' | { readonly pin: string }) => (of === 'supply' ? supply.node : pinNamed(of.pin).node);
  const listening = (figures: InputFigures) => ({ figures, ...(figures.of ? { of: nodeNamed(figures.of) } : {}) });
  const drains = perVolt(spec.supplyCurrent[drive === 'guaranteed' ? 'most' : 'typical']);
  return {
    placed,
    spec,
    supply,
    ground,
    certainFrom: (1 - (varied ? VARIED : TAKEN)) * spec.supplyRange[0],
    inputs: spec.inputs.map((name): ChipInput => ({ ...pinNamed(name), ...listening(figuresOf(spec, name)) })),
    outputs: spec.outputs.map((name) => {
      const pin = pinNamed(name);
      const { bleed = 0, [drive]: channels } = driveOf(name);
      if (bleed > 0) keep(pin, ground, network.addConductance(pin.node, ground.node, bleed));
      const device = keep(pin, ground, network.addOutput(pin.node, ground.node, supply.node, channels), supply);
      return { ...pin, bleed, device };
    }),
    burnt,
    marks,
    contacts: (spec.contacts ?? []).map((c) => placeContact(network, c, pinNamed, keep)),
    ...innerOf(network, coils, placed),
    drain: keep(supply, ground, network.addConductance(supply.node, ground.node, drains.resting, true)),
    drains,
  };
}

/** Where the current of the part's own winding is kept. */
function innerOf(network: Network, coils: readonly CoilSite[], placed: Placed): Pick<ChipSite, 'coil'> {
  const own = coils.find((c) => c.placed === placed);
  return own ? { coil: network.innerNodeOf(own.device) } : {};
}

function placeContact(
  network: Network,
  { ends, on, off, atRest }: NonNullable<ChipSpec['contacts']>[number],
  pinNamed: (name: string) => ChipPin,
  keep: (a: ChipPin, b: ChipPin, device: Device) => Device,
): Device {
  const [a, b] = [pinNamed(ends[0]), pinNamed(ends[1])];
  return keep(a, b, network.addConductance(a.node, b.node, 1 / (atRest ? on : off), true));
}
