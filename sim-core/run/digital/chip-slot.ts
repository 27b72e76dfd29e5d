/** One chip in its slot: what it pulls and what is certain of it, how it reaches the bench, and how it goes on in another wiring. */
import { COIL_SCALE } from '../../devices/coil.ts';
import { type Device, GROUND, type Network, type Node, OFF, PULL_HIGH, PULL_LOW, type Pull } from '../../devices/network.ts';
import { type SupplyHysteresis, supplyHysteresis } from '../../parts/logic/supply-hysteresis.ts';
import type { Bounce, Chip, ChipBench, ChipEvent, Level } from '../../parts/part.ts';
import type { Floating } from '../analog/floating-inputs.ts';
import type { Circuit } from '../circuit/circuit.ts';
import type { ChipPin, ChipSite } from '../circuit/sites.ts';

/** One chip and what is known of its pins. When the bench is rewired the site changes and everything else stays. */
export interface RunningChip {
  site: ChipSite;
  chip: Chip;
  /** by input: the level as the chip sees it, and whether the pin floats */
  readonly level: Level[];
  readonly floating: (Floating | false)[];
  /** by output: what it pulls, and all that it may pull, 1 << pull for each */
  readonly pull: Pull[];
  readonly may: number[];
  /** by output: what the chip itself would have it pull, though its supply promises nothing */
  readonly meant: number[];
  /** has it the supply that its sheet specifies? Below that it may work, and no level that it drives is certain */
  readonly specified: SupplyHysteresis;
  draws: 'working' | 'resting';
  /** by contact that it moves */
  readonly closed: boolean[];
  /** by supply mark, then by mark of a pin, then for the supply from which on it is certain: is it passed? */
  readonly above: boolean[];
  network: Network;
  /** node voltages that belong to the site */
  volts: Float64Array;
}

/** Who an alarm is for: the slot with the chip that asked, even if another one of that name stands there later. */
export type ChipSlot = Omit<RunningChip, 'chip'>;

/** What a chip's doings are told to. */
export interface ChipListener {
  now(): number;
  alarm(slot: ChipSlot, time: number, name: string, background: boolean): void;
  report(event: ChipEvent): void;
  rebounds(bounce: Bounce): readonly number[];
  /** a device goes from one state to another */
  moved(device: Device, from: number, to: number): void;
}

/** The bench has voltages for the first time, or the chip has just been pushed in. */
export function beginChip(slot: RunningChip, now: number): void {
  slot.specified.begin();
  slot.chip.begin(now);
}

export function newSlot(site: ChipSite, circuit: Circuit, listener: ChipListener): RunningChip {
  const { spec } = site;
  const part = site.placed.part.id;
  const at = (node: Node) => (node === GROUND ? 0 : (slot.volts[node] as number));
  const supply = () => at(slot.site.supply.node) - at(slot.site.ground.node);
  const alarm: ChipBench['alarm'] = (time, name, background) => listener.alarm(slot, time, name, background === true);
  const slot: ChipSlot = {
    site,
    network: circuit.network,
    level: spec.inputs.map(() => 'L'),
    floating: spec.inputs.map(() => false),
    pull: spec.outputs.map(() => OFF),
    may: spec.outputs.map(() => 1 << OFF),
    meant: spec.outputs.map(() => 1 << OFF),
    specified: supplyHysteresis({ supply, alarm }, site.certainFrom > 0 ? site.certainFrom : Number.NEGATIVE_INFINITY, SPECIFIED),
    draws: 'resting',
    closed: (spec.contacts ?? []).map((c) => c.atRest),
    above: chipMarks(site).map(() => false),
    volts: new Float64Array(circuit.network.n + 1),
  };
  const bench: ChipBench = {
    part,
    cells: circuit.plan.cells?.[part],
    level: (input) => slot.level[input] ?? 'X',
    supply,
    volts: (mark) => at(slot.site.marks[mark]?.node ?? GROUND) - at(slot.site.ground.node),
    above: (mark) => slot.above[spec.supplyMarks.length + mark] === true && !slot.site.burnt.has(spec.marks?.[mark]?.pin ?? ''),
    drive: (output, pull) => setOutput(slot, output, pull, 1 << pull, listener.moved),
    perhaps: (output, pulls) => setOutput(slot, output, OFF, pulls, listener.moved),
    doubt(output) {
      const pin = slot.site.outputs[output];
      if (!pin || isBurnt(slot.site, pin)) return;
      slot.meant[output] = ANYTHING;
      slot.may[output] = ANYTHING;
    },
    draw(state) {
      if (slot.draws === state) return;
      slot.draws = state;
      slot.network.setConductance(slot.site.drain, slot.site.drains[state]);
      listener.moved(slot.site.drain, 0, 0);
    },
    moveContact: (contact, closed) => setContact(slot, contact, closed, listener.moved),
    rebounds: (bounce) => listener.rebounds(bounce),
    alarm,
    report: (event) => listener.report(event),
  };
  return Object.assign(slot, { chip: spec.start(bench, circuit.plan.memories[part]) });
}

/** What an output pulls from now on, and all that it may pull as far as its chip knows. */
function setOutput(slot: ChipSlot, output: number, wanted: Pull, possible: number, moved: ChipListener['moved']): void {
  const pin = slot.site.outputs[output];
  if (!pin) return;
  const before = slot.pull[output] === OFF ? slot.may[output] : 0;
  const open = isBurnt(slot.site, pin);
  const pull = open ? OFF : wanted;
  slot.meant[output] = open ? 1 << OFF : possible;
  const may = mayOf(slot, output);
  slot.may[output] = may;
  if (slot.pull[output] === pull) {
    // those who listen are told, though no voltage changes
    if (pull === OFF && before !== may) moved(pin.device, pull, pull);
    return;
  }
  moved(pin.device, slot.pull[output] as Pull, pull);
  slot.pull[output] = pull;
  slot.network.setPull(pin.device, pull);
}

/** A gate whose pin is burnt open reads an undefined level. */
export const isBurnt = ({ burnt }: ChipSite, { name }: ChipPin): boolean => burnt.has(name);

/** An output that pulls nothing because what it pulls is unknown. */
export const pullsNothing = ({ pull, may }: RunningChip, output: number): boolean => pull[output] === OFF && !isSure(may[output] as number);
/** That, or one of a chip that has too little supply, though it pulls what it would with enough. */
const isUncertain = (slot: RunningChip, output: number): boolean =>
  pullsNothing(slot, output) || (!slot.specified.on() && !isSure(slot.may[output] as number));
export const unknownTo = (listener: RunningChip) => (listener.specified.on() ? isUncertain : pullsNothing);

/** Name of the alarm of RunningChip.specified. */
export const SPECIFIED = 'supply as specified';
/** All that an output may pull: what its chip means, and anything but nothing where the supply is too low for its sheet to promise it. */
export const mayOf = ({ specified, meant }: Pick<RunningChip, 'specified' | 'meant'>, output: number): number =>
  specified.on() || meant[output] === 1 << OFF ? (meant[output] as number) : ANYTHING;

/** One pull alone. */
export const isSure = (may: number): boolean => (may & (may - 1)) === 0;
/** It is known of every output what it pulls. */
export const isDecided = ({ may }: Pick<RunningChip, 'may'>): boolean => may.every(isSure);
const ANYTHING = (1 << OFF) | (1 << PULL_LOW) | (1 << PULL_HIGH);

/** Supply marks, then the marks of single pins, then those of its winding, then the supply from which on it is certain, as nodes and voltages. */
export const chipMarks = ({
  spec,
  supply,
  ground,
  certainFrom,
  marks,
  coil = GROUND,
}: ChipSite): { node: Node; against: Node; volts: number }[] => [
  ...spec.supplyMarks.map((volts) => ({ node: supply.node, against: ground.node, volts })),
  ...(spec.marks ?? []).map(({ volts }, i) => ({ node: marks[i]?.node ?? GROUND, against: ground.node, volts })),
  ...(spec.coilMarks ?? []).flatMap((amps) => [amps, -amps].map((a) => ({ node: coil, against: GROUND, volts: a / COIL_SCALE }))),
  ...(certainFrom > 0 ? [{ node: supply.node, against: ground.node, volts: certainFrom }] : []),
];

/** One of the contacts that it moves; who listens is told before it changes. */
function setContact(slot: ChipSlot, contact: number, closed: boolean, moved?: ChipListener['moved']): void {
  const device = slot.site.contacts[contact];
  const figures = slot.site.spec.contacts?.[contact];
  if (!device || !figures) return;
  slot.closed[contact] = closed;
  const siemens = 1 / (closed ? figures.on : figures.off);
  const before = slot.network.conductance(device);
  if (before === siemens) return;
  moved?.(device, before, siemens);
  slot.network.setConductance(device, siemens);
}

/** The same chip at its place in a new wiring. */
export function moveSlot(slot: RunningChip, site: ChipSite, network: Network): RunningChip {
  Object.assign(slot, { site, network });
  for (const [i, output] of site.outputs.entries()) {
    if (site.burnt.has(output.name)) {
      slot.pull[i] = OFF;
      slot.meant[i] = 1 << OFF;
      slot.may[i] = 1 << OFF;
    }
    network.setPull(output.device, slot.pull[i] as Pull);
  }
  network.setConductance(site.drain, site.drains[slot.draws]);
  for (const [contact, closed] of slot.closed.entries()) setContact(slot, contact, closed);
  return slot;
}
