/** The digital half of a running bench: each chip in its socket, told of crossings in order of time, heard when it drives its pins. */
import { type Device, GROUND, type Network, type Node, OFF, PULL_HIGH, PULL_LOW, type Pull } from '../devices/network.ts';
import type { Chip, ChipBench, ChipEvent, Level } from '../parts/part.ts';
import type { ChipInput, ChipSite, Circuit } from './circuit.ts';
import type { Holding } from './holding.ts';
import type { Watch } from './physics.ts';
import type { Choice, Undecided } from './undecided.ts';

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

export interface Sockets {
  readonly all: readonly Socket[];
  readonly watches: readonly Watch[];
  /** the bench has voltages for the first time */
  begin(x: Float64Array, end: Float64Array): void;
  /** passed: the watches that have changed sides; stirred: the blocks in which what holds a pin may have changed too, as seen at `end` */
  deliver(passed: readonly number[], x: Float64Array, end: Float64Array, stirred: ReadonlySet<number> | 'all' | undefined): void;
  alarm(seat: Seat, name: string): void;
}

/** carried: sockets of the same bench before a rewiring, with chips that go on. */
export function makeSockets(circuit: Circuit, holding: Holding, undecided: Undecided, ear: Ear, carried: readonly Socket[]): Sockets {
  const all = circuit.chips.map((site) => {
    const old = carried.find((s) => s.site.placed.part.id === site.placed.part.id && s.site.placed.kind === site.placed.kind);
    return old ? reseat(old, site, circuit.network) : newSocket(site, circuit, ear);
  });

  const watches: Watch[] = [];
  /** by socket: where its inputs' pairs of watches begin, then its supply's */
  const firstWatch = all.map((socket) => {
    const { site, level } = socket;
    const first = watches.length;
    for (const [i, pin] of site.inputs.entries()) {
      const { vil, vih } = pin.figures;
      const between = { a: pin.node, b: site.ground.node, ...(pin.of === undefined ? {} : { c: pin.of }) };
      watches.push({ ...between, mark: vil, above: level[i] !== 'L' });
      watches.push({ ...between, mark: vih, above: level[i] === 'H' });
    }
    for (const { node, volts } of marksOf(site))
      watches.push({ a: node, b: site.ground.node, mark: volts, above: socket.above[watches.length - first - 2 * level.length] === true });
    return first;
  });

  const blockOf = (node: Node) => (node === GROUND ? -1 : (circuit.blocks.of[node] as number));
  /** by block: the outputs in it */
  const outputsIn = new Map<number, { readonly socket: Socket; readonly output: number }[]>();
  for (const socket of all)
    for (const [output, { node }] of socket.site.outputs.entries()) {
      const here = outputsIn.get(blockOf(node));
      if (here) here.push({ socket, output });
      else outputsIn.set(blockOf(node), [{ socket, output }]);
    }
  const reaching = all.map((socket) =>
    socket.site.inputs.map((pin) => (outputsIn.get(blockOf(pin.node)) ?? []).filter((o) => o.socket !== socket)),
  );
  /** Can another chip's output of which nobody knows what it pulls reach this input, and does it matter what it pulls? */
  const doubtful = (k: number, input: number): boolean => {
    let reached = false;
    for (const o of reaching[k]?.[input] ?? []) if (unknown(o.socket, o.output)) reached = true;
    const pin = all[k]?.site.inputs[input];
    if (!reached || !pin) return false;
    const level = undecided
      .possible(choicesAmong(all, (pull) => pull === OFF))
      .agreed(blockOf(pin.node), (x) => levelAt(x, pin.node, (all[k] as Socket).site, pin));
    return level !== 'L' && level !== 'H';
  };

  const listensToOthers = reaching.map((inputs) => inputs.some((outputs) => outputs.length > 0));
  /** by block: the sockets with an input in it */
  const socketsAt = new Map<number, Set<number>>();
  for (const [k, { site }] of all.entries())
    for (const { node } of site.inputs) {
      const block = node === GROUND ? -1 : (circuit.blocks.of[node] as number);
      const here = socketsAt.get(block);
      if (here) here.add(k);
      else socketsAt.set(block, new Set([k]));
    }
  /** Can anything have changed for this socket? */
  const concerned = (k: number, passed: readonly number[], stirred: ReadonlySet<number> | 'all' | undefined): boolean => {
    if (stirred === 'all' || listensToOthers[k]) return true;
    const first = firstWatch[k] as number;
    const beyond = firstWatch[k + 1] ?? watches.length;
    for (const w of passed) if (w >= first && w < beyond) return true;
    if (stirred) for (const block of stirred) if (socketsAt.get(block)?.has(k)) return true;
    return false;
  };

  const rawLevel = (socket: Socket, first: number, input: number): Level => {
    const low = watches[first + 2 * input];
    const high = watches[first + 2 * input + 1];
    if (high?.above) return 'H';
    if (!low?.above) return 'L';
    const before = socket.level[input] as Level;
    return socket.site.inputs[input]?.figures.keeps && before !== 'X' ? before : 'X';
  };

  return {
    all,
    watches,
    begin(x, end) {
      for (const [k, socket] of all.entries()) {
        socket.volts = x;
        const marks = (firstWatch[k] as number) + 2 * socket.level.length;
        for (const i of socket.above.keys()) socket.above[i] = watches[marks + i]?.above === true;
        for (const i of socket.level.keys()) {
          socket.floating[i] = holding.floats(socket.site, i, end);
          socket.level[i] =
            socket.floating[i] || isBurnt(socket.site, i) || doubtful(k, i) ? 'X' : rawLevel(socket, firstWatch[k] as number, i);
        }
        socket.chip.begin(ear.now());
      }
    },
    deliver(passed, x, end, stirred) {
      for (let k = 0; k < all.length; k++) {
        const socket = all[k] as Socket;
        socket.volts = x;
        if (!concerned(k, passed, stirred)) continue;
        const first = firstWatch[k] as number;
        const marks = first + 2 * socket.level.length;
        const { supplyMarks } = socket.site.spec;
        for (const w of passed) {
          const place = w - marks;
          if (place < 0 || place >= socket.above.length) continue;
          const rising = watches[w]?.above === true;
          socket.above[place] = rising;
          const mark = supplyMarks[place];
          if (mark !== undefined) socket.chip.supplyCrossed(mark, rising, ear.now());
          else socket.chip.markCrossed?.(place - supplyMarks.length, rising, ear.now());
        }
        for (let i = 0; i < socket.level.length; i++) {
          if (stirred && (stirred === 'all' || stirred.has(blockOf(socket.site.inputs[i]?.node ?? GROUND))))
            socket.floating[i] = holding.floats(socket.site, i, end);
          const level = socket.floating[i] || isBurnt(socket.site, i) || doubtful(k, i) ? 'X' : rawLevel(socket, first, i);
          const before = socket.level[i] as Level;
          if (level === before) continue;
          socket.level[i] = level;
          socket.chip.levelChanged(i, before, ear.now());
        }
      }
    },
    alarm(seat, name) {
      all.find((s) => s === seat)?.chip.alarm(name, ear.now());
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
    const open = pin !== undefined && socket.site.burnt.has(pin.name);
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
      if (!socket.site.burnt.has(socket.site.outputs[output]?.name ?? '')) socket.may[output] = ANYTHING;
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
const isBurnt = (site: ChipSite, input: number): boolean => site.burnt.size > 0 && site.burnt.has(site.inputs[input]?.name ?? '');

/** An output that pulls nothing because nobody can tell what it pulls. */
const unknown = (socket: Pick<Socket, 'may' | 'pull'>, output: number): boolean =>
  socket.pull[output] === OFF && !isSure(socket.may[output] as number);

/** One pull alone. */
export const isSure = (may: number): boolean => (may & (may - 1)) === 0;
const ANYTHING = (1 << OFF) | (1 << PULL_LOW) | (1 << PULL_HIGH);

/** The outputs of which nobody can tell what they pull, if `counts` what they pull on the bench meanwhile. */
export function choicesAmong(sockets: readonly Socket[], counts: (pull: Pull) => boolean): Choice[] {
  const found: Choice[] = [];
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
