/** The digital half of a running bench: each chip in its socket, told of crossings in order of time, heard when it drives its pins. */
import { type Device, GROUND, type Network, type Node, OFF, PULL_HIGH, PULL_LOW, type Pull } from '../../devices/network.ts';
import type { Chip, ChipBench, ChipEvent, Level } from '../../parts/part.ts';
import type { FloatingInputs } from '../analog/floating-inputs.ts';
import type { Watch, Watches } from '../analog/threshold-crossings.ts';
import type { PullChoice, UnknownOutputs } from '../analog/unknown-outputs.ts';
import type { ChipInput, ChipPin, ChipSite, Circuit } from '../circuit/circuit.ts';
import type { BlockSet } from '../circuit/partition.ts';

/** One chip and what is known of its pins. When the bench is rewired the site changes and everything else stays. */
export interface Socket {
  site: ChipSite;
  chip: Chip;
  /** by input: the level as the chip sees it, and whether the pin floats */
  readonly level: Level[];
  readonly floating: boolean[];
  /** by output: what it pulls, and all that it may pull, 1 << pull for each */
  readonly pull: Pull[];
  readonly may: number[];
  draws: 'working' | 'resting';
  /** by supply mark, then by mark of a pin: is it passed? */
  readonly above: boolean[];
  network: Network;
  /** node voltages that belong to the site */
  volts: Float64Array;
}

/** Who an alarm is for: the socket with the chip that asked, even if another one of that name stands there later. */
export type Seat = Omit<Socket, 'chip'>;

/** What a chip's doings are told to. */
export interface Ear {
  now(): number;
  alarm(seat: Seat, time: number, name: string, background: boolean): void;
  report(event: ChipEvent): void;
  /** a device goes from one state to another */
  moved(device: Device, from: number, to: number): void;
}

export interface ChipRuntime {
  readonly all: readonly Socket[];
  readonly watches: Watches;
  /** the bench has voltages for the first time */
  begin(x: Float64Array, end: Float64Array): void;
  /** passed: the watches that have changed sides; stirred: the blocks in which what holds a pin may have changed too, as seen at `end` */
  deliver(passed: Int32Array, x: Float64Array, end: Float64Array, stirred: BlockSet | undefined): void;
  alarm(seat: Seat, name: string): void;
}

interface OutputPlace {
  readonly socket: Socket;
  readonly output: number;
}

/** carried: sockets of the same bench before a rewiring, with chips that go on. given: those whose chip begins anew at pins that stay as they are. */
export function makeChipRuntime(
  circuit: Circuit,
  holding: FloatingInputs,
  undecided: UnknownOutputs,
  ear: Ear,
  carried: readonly Socket[],
  given: readonly Socket[],
): ChipRuntime {
  const all = circuit.chips.map((site) => {
    const old = carried.find((s) => s.site.placed.part.id === site.placed.part.id && s.site.placed.kind === site.placed.kind);
    if (old) return reseat(old, site, circuit.network);
    const socket = newSocket(site, circuit, ear);
    const pins = given.find((s) => s.site.placed.part.id === site.placed.part.id);
    for (const [i, level] of pins?.level.entries() ?? []) socket.level[i] = level;
    for (const [i, floats] of pins?.floating.entries() ?? []) socket.floating[i] = floats;
    for (const [i, above] of pins?.above.entries() ?? []) socket.above[i] = above;
    return socket;
  });

  const list: Watch[] = [];
  const sides: boolean[] = [];
  const watch = (w: Watch, isAbove: boolean) => {
    list.push(w);
    sides.push(isAbove);
  };
  /** by socket: where its inputs' pairs of watches begin, then its supply's; one more for where the last one's end */
  const firstWatch = new Int32Array(all.length + 1);
  for (const [k, { site, level, above }] of all.entries()) {
    for (const [i, pin] of site.inputs.entries()) {
      const { vil, vih } = pin.figures;
      const between = { a: pin.node, b: site.ground.node, ...(pin.of === undefined ? {} : { c: pin.of }) };
      watch({ ...between, mark: vil }, level[i] !== 'L');
      watch({ ...between, mark: vih }, level[i] === 'H');
    }
    for (const [i, { node, volts }] of marksOf(site).entries()) watch({ a: node, b: site.ground.node, mark: volts }, above[i] === true);
    firstWatch[k + 1] = list.length;
  }
  const above = Uint8Array.from(sides, (side) => (side ? 1 : 0));

  const blockOf = (node: Node) => (node === GROUND ? -1 : (circuit.blocks.of[node] as number));
  /** by block: the outputs in it */
  const outputsIn = new Map<number, OutputPlace[]>();
  for (const socket of all)
    for (const [output, { node }] of socket.site.outputs.entries()) {
      const here = outputsIn.get(blockOf(node));
      if (here) here.push({ socket, output });
      else outputsIn.set(blockOf(node), [{ socket, output }]);
    }
  /** by socket and input: its block, and the outputs of other chips in that */
  const blocksOf = all.map(({ site }) => Int32Array.from(site.inputs, (pin) => blockOf(pin.node)));
  const reaching = all.map((socket, k) =>
    [...(blocksOf[k] as Int32Array)].map((block) => (outputsIn.get(block) ?? []).filter((o) => o.socket !== socket)),
  );
  /** by socket and input, 1: other chips' outputs can reach it */
  const listens = reaching.map((inputs) => Uint8Array.from(inputs, (outputs) => (outputs.length > 0 ? 1 : 0)));
  /** by socket and input, 1: one of its watches has just passed */
  const crossed = all.map(({ level }) => new Uint8Array(level.length));
  const noteCrossed = (passed: Int32Array, value: 0 | 1) => {
    let k = 0;
    // both ascend
    for (let p = 0; p < passed.length; p++) {
      const w = passed[p] as number;
      while (w >= (firstWatch[k + 1] as number)) k += 1;
      const here = crossed[k] as Uint8Array;
      const input = (w - (firstWatch[k] as number)) >> 1;
      if (input < here.length) here[input] = value;
    }
  };
  /** Can another chip's output of which nobody knows what it pulls reach this input? */
  const isReached = (k: number, input: number): boolean => {
    const outputs = (reaching[k] as (typeof reaching)[number])[input] as readonly OutputPlace[];
    for (let o = 0; o < outputs.length; o++) {
      const { socket, output } = outputs[o] as OutputPlace;
      if (unknown(socket, output)) return true;
    }
    return false;
  };
  /** by socket and input, 1: it was reached when its level was last looked at */
  const wasReached = all.map(({ level }) => new Uint8Array(level.length));
  /** Is it reached so, and does it matter what that output pulls? */
  const doubtful = (k: number, input: number): boolean => {
    const reached = isReached(k, input);
    (wasReached[k] as Uint8Array)[input] = reached ? 1 : 0;
    return reached && matters(k, input);
  };
  const matters = (k: number, input: number): boolean => {
    const { site } = all[k] as Socket;
    const pin = site.inputs[input] as ChipInput;
    const level = undecided
      .possible(choicesAmong(all, (pull) => pull === OFF))
      .agreed(blockOf(pin.node), (x) => levelAt(x, pin.node, site, pin));
    return level !== 'L' && level !== 'H';
  };

  const rawLevel = (socket: Socket, first: number, input: number): Level => {
    if (above[first + 2 * input + 1] === 1) return 'H';
    if (above[first + 2 * input] === 0) return 'L';
    const before = socket.level[input] as Level;
    return socket.site.inputs[input]?.figures.keeps && before !== 'X' ? before : 'X';
  };
  const levelOf = (socket: Socket, k: number, input: number): Level =>
    socket.floating[input] || isBurnt(socket.site, socket.site.inputs[input] as ChipInput) || doubtful(k, input)
      ? 'X'
      : rawLevel(socket, firstWatch[k] as number, input);

  const crossMarks = (socket: Socket, k: number, passed: Int32Array) => {
    const marks = (firstWatch[k] as number) + 2 * socket.level.length;
    const { supplyMarks } = socket.site.spec;
    for (let p = 0; p < passed.length; p++) {
      const place = (passed[p] as number) - marks;
      if (place < 0 || place >= socket.above.length) continue;
      const rising = above[marks + place] === 1;
      socket.above[place] = rising;
      const mark = supplyMarks[place];
      if (mark !== undefined) socket.chip.supplyCrossed(mark, rising, ear.now());
      else socket.chip.markCrossed?.(place - supplyMarks.length, rising, ear.now());
    }
  };

  return {
    all,
    watches: { list, above },
    begin(x, end) {
      for (const [k, socket] of all.entries()) {
        socket.volts = x;
        const marks = (firstWatch[k] as number) + 2 * socket.level.length;
        for (const i of socket.above.keys()) socket.above[i] = above[marks + i] === 1;
        for (const i of socket.level.keys()) {
          socket.floating[i] = holding.floats(socket.site, i, end);
          socket.level[i] = levelOf(socket, k, i);
        }
        socket.chip.begin(ear.now());
      }
    },
    deliver(passed, x, end, stirred) {
      noteCrossed(passed, 1);
      for (let k = 0; k < all.length; k++) {
        const socket = all[k] as Socket;
        socket.volts = x;
        if (passed.length > 0) crossMarks(socket, k, passed);
        const blocks = blocksOf[k] as Int32Array;
        const across = crossed[k] as Uint8Array;
        const listening = listens[k] as Uint8Array;
        const doubted = wasReached[k] as Uint8Array;
        for (let i = 0; i < blocks.length; i++) {
          const stirs = stirred?.has(blocks[i] as number) === true;
          if (!stirs && across[i] === 0 && (listening[i] === 0 || (doubted[i] === 0 && !isReached(k, i)))) continue;
          if (stirs) socket.floating[i] = holding.floats(socket.site, i, end);
          const before = socket.level[i] as Level;
          const level = levelOf(socket, k, i);
          if (level === before) continue;
          socket.level[i] = level;
          socket.chip.levelChanged(i, before, ear.now());
        }
      }
      noteCrossed(passed, 0);
    },
    alarm(seat, name) {
      for (let k = 0; k < all.length; k++) if (all[k] === seat) all[k]?.chip.alarm(name, ear.now());
    },
  };
}

function newSocket(site: ChipSite, circuit: Circuit, ear: Ear): Socket {
  const { spec } = site;
  const part = site.placed.part.id;
  const socket: Seat = {
    site,
    network: circuit.network,
    level: spec.inputs.map(() => 'L'),
    floating: spec.inputs.map(() => false),
    pull: spec.outputs.map(() => OFF),
    may: spec.outputs.map(() => 1 << OFF),
    draws: 'resting',
    above: marksOf(site).map(() => false),
    volts: new Float64Array(circuit.network.n + 1),
  };
  const setOutput = (output: number, wish: Pull, wishes: number) => {
    const before = socket.pull[output] === OFF ? socket.may[output] : 0;
    const pin = socket.site.outputs[output];
    const open = pin !== undefined && isBurnt(socket.site, pin);
    const pull = open ? OFF : wish;
    const may = open ? 1 << OFF : wishes;
    socket.may[output] = may;
    // those who listen are told, though no voltage changes
    if (pin && socket.pull[output] === pull && pull === OFF && before !== may) ear.moved(pin.device, pull, pull);
    if (!pin || socket.pull[output] === pull) return;
    ear.moved(pin.device, socket.pull[output] ?? OFF, pull);
    socket.pull[output] = pull;
    socket.network.setPull(pin.device, pull);
  };
  const bench: ChipBench = {
    part,
    cells: circuit.plan.cells?.[part],
    level: (input) => socket.level[input] ?? 'X',
    supply() {
      const at = (node: number) => (node === GROUND ? 0 : (socket.volts[node] as number));
      return at(socket.site.supply.node) - at(socket.site.ground.node);
    },
    volts(mark) {
      const at = (node: number) => (node === GROUND ? 0 : (socket.volts[node] as number));
      return at(socket.site.marks[mark]?.node ?? GROUND) - at(socket.site.ground.node);
    },
    above: (mark) => socket.above[spec.supplyMarks.length + mark] === true && !socket.site.burnt.has(spec.marks?.[mark]?.pin ?? ''),
    drive: (output, pull) => setOutput(output, pull, 1 << pull),
    perhaps: (output, pulls) => setOutput(output, OFF, pulls),
    doubt(output) {
      const pin = socket.site.outputs[output];
      if (pin && !isBurnt(socket.site, pin)) socket.may[output] = ANYTHING;
    },
    draw(state) {
      if (socket.draws === state) return;
      socket.draws = state;
      socket.network.setConductance(socket.site.drain, drainOf(socket.site, state));
      ear.moved(socket.site.drain, 0, 0);
    },
    alarm: (time, name, background) => ear.alarm(socket, time, name, background === true),
    report: (event) => ear.report(event),
  };
  return Object.assign(socket, { chip: spec.start(bench, circuit.plan.memories[part]) });
}

/** Nobody can tell what a gate reads whose pin is burnt open. */
const isBurnt = ({ burnt }: ChipSite, { name }: ChipPin): boolean => burnt.size > 0 && burnt.has(name);

/** An output that pulls nothing because nobody can tell what it pulls. */
const unknown = (socket: Pick<Socket, 'may' | 'pull'>, output: number): boolean =>
  socket.pull[output] === OFF && !isSure(socket.may[output] as number);

/** One pull alone. */
export const isSure = (may: number): boolean => (may & (may - 1)) === 0;
/** It is known of every output what it pulls. */
export const isDecided = ({ may }: Pick<Socket, 'may'>): boolean => may.every(isSure);
const ANYTHING = (1 << OFF) | (1 << PULL_LOW) | (1 << PULL_HIGH);

/** The outputs of which nobody can tell what they pull, if `counts` what they pull on the bench meanwhile. */
export function choicesAmong(sockets: readonly Socket[], counts: (pull: Pull) => boolean): PullChoice[] {
  const found: PullChoice[] = [];
  for (const { site, pull, may } of sockets)
    for (let output = 0; output < may.length; output++)
      if (!isSure(may[output] as number) && counts(pull[output] as Pull)) found.push({ site, output, may: may[output] as number });
  return found;
}

/** A node's level as an input of this chip with these figures takes it, at node voltages x. */
export function levelAt(x: Float64Array, node: Node, { ground }: ChipSite, { figures, of }: Pick<ChipInput, 'figures' | 'of'>): Level {
  const at = (n: Node) => (n === GROUND ? 0 : (x[n] as number));
  const volts = at(node) - at(ground.node);
  const whole = of === undefined ? 1 : at(of) - at(ground.node);
  return volts <= figures.vil * whole ? 'L' : volts >= figures.vih * whole ? 'H' : 'X';
}

/** Supply marks, then the marks of single pins, as nodes and voltages. */
const marksOf = ({ spec, supply, marks }: ChipSite): { node: Node; volts: number }[] => [
  ...spec.supplyMarks.map((volts) => ({ node: supply.node, volts })),
  ...(spec.marks ?? []).map(({ volts }, i) => ({ node: marks[i]?.node ?? GROUND, volts })),
];

/** A chip's supply current as a conductance: linear, right at 5 V. */
const drainOf = (site: ChipSite, state: 'working' | 'resting'): number => site.spec.supplyCurrent[state] / 5;

/** The same chip at its place in a new wiring. */
function reseat(socket: Socket, site: ChipSite, network: Network): Socket {
  Object.assign(socket, { site, network });
  for (const [i, output] of site.outputs.entries()) {
    if (site.burnt.has(output.name)) {
      socket.pull[i] = OFF;
      socket.may[i] = 1 << OFF;
    }
    network.setPull(output.device, socket.pull[i] ?? OFF);
  }
  network.setConductance(site.drain, drainOf(site, socket.draws));
  return socket;
}
