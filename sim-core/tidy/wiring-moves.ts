/** One small change of a wiring that keeps every net in one piece: an end into another hole, two ends exchanged, a wire that nothing needs taken away. */
import { lengthOf } from './lines.ts';
import { shiftStand } from './stand-shift.ts';
import { isWhole } from './wiring-nets.ts';
import type { End, Movable, WiringState } from './wiring-state.ts';

export type Undo = () => void;

/** A change that has been made. dearer: what the wiring costs more with it. */
export interface Move {
  readonly dearer: number;
  readonly undo: Undo;
}

/** So many of all moves shift a part, and so far at most [rows]. */
const SHIFTS = 0.01;
const FARTHEST = 12;

type Random = () => number;

/** A resistor's legs are so far apart [pitch]: less does not bend, more is bare wire. */
const SPAN = { least: 2, most: 10 } as const;
/** Of a rail, holes so far beside the other end are tried [pitch]. */
const ASIDE = 4;

const pick = <T>(list: readonly T[], random: Random): T | undefined => list[Math.floor(random() * list.length)];

/** Some change, made; undefined if the one that chance chose cannot be. */
export function propose(state: WiringState, random: Random): Move | undefined {
  if (random() < SHIFTS) return shift(state, random);
  const line = pick(state.lines, random);
  if (!line?.there || line.locked) return undefined;
  if (line.strips.every((strip) => state.strip(strip).rail) && random() < 0.5) return slide(state, line, random);
  const end: End = random() < 0.5 ? 0 : 1;
  if (line.holes[end] < 0) return undefined;
  return random() < 0.15 ? exchange(state, line, end, random) : moveEnd(state, line, end, random);
}

/** An end into a free hole of its net. */
function moveEnd(state: WiringState, line: Movable, end: End, random: Random): Move | undefined {
  const strip = line.staysInStrips || random() < 0.5 ? line.strips[end] : otherStrip(state, line, end, random);
  const hole = strip === undefined ? undefined : holeIn(state, strip, line, end, random);
  if (strip === undefined || hole === undefined) return undefined;
  const left = line.strips[end];
  const before = line.holes[end];
  const followers = strip === left || state.keeps(left) ? [] : state.endingAt(left).filter((other) => other !== line);
  const touched = [line, ...followers];
  const cost = state.cost(touched);
  state.put(line, end, hole);
  const undos: Undo[] = [() => state.put(line, end, before)];
  if (strip !== left) {
    undos.push(...leadOn(state, left, followers));
    if (!isWhole(state, state.strip(left).net)) {
      undoAll(undos);
      return undefined;
    }
  }
  if (!spansWell(line) || !followers.every(spansWell)) {
    undoAll(undos);
    return undefined;
  }
  return { dearer: state.cost(touched) - cost, undo: () => undoAll(undos) };
}

/** A strip of the same net and sort. A pull resistor stays at its switch. */
function otherStrip(state: WiringState, line: Movable, end: End, random: Random): number | undefined {
  const here = state.strip(line.strips[end]);
  const strip = pick(state.index.ofNet[here.net] ?? [], random);
  if (strip === undefined || strip === line.strips[end === 0 ? 1 : 0]) return undefined;
  const there = state.strip(strip);
  if (there.rail !== here.rail || (line.atSwitch[end] && !there.switched)) return undefined;
  // a part stays on its board
  return line.isWire || there.board === here.board ? strip : undefined;
}

/** A free hole of a strip; of a rail one not far beside the line's other end. */
function holeIn(state: WiringState, strip: number, { line }: Movable, end: End, random: Random): number | undefined {
  const { holes, rail } = state.strip(strip);
  let hole = pick(holes, random);
  if (rail) {
    const x = (end === 0 ? line.bx : line.ax) + Math.round((2 * random() - 1) * ASIDE);
    const at = (h: number | undefined) => Math.abs((state.index.x[h ?? 0] as number) - x);
    for (const h of holes) if (at(h) < at(hole)) hole = h;
  }
  return hole !== undefined && state.isFree(hole) ? hole : undefined;
}

/** A wire from rail to rail along both of them. */
function slide(state: WiringState, line: Movable, random: Random): Move | undefined {
  const before = [...line.holes] as const;
  const one = pick(state.strip(line.strips[0]).holes, random);
  if (one === undefined || !state.isFree(one)) return undefined;
  const cost = state.cost([line]);
  state.put(line, 0, one);
  const undo = () => {
    state.put(line, 0, before[0]);
    state.put(line, 1, before[1]);
  };
  const other = holeIn(state, line.strips[1], line, 1, () => 0.5);
  if (other !== undefined) state.put(line, 1, other);
  return { dearer: state.cost([line]) - cost, undo };
}

/** What led to a strip in which nothing stands any more: one wire is taken away, two become one. */
function leadOn(state: WiringState, strip: number, ending: readonly Movable[]): Undo[] {
  const [one, other, ...more] = ending;
  if (!one?.isWire || one.locked || more.length > 0 || (other && (!other.isWire || other.locked))) return [];
  if (!other) {
    state.lay(one, false);
    return [() => state.lay(one, true)];
  }
  const near: End = one.strips[0] === strip ? 0 : 1;
  const far: End = other.strips[0] === strip ? 1 : 0;
  const [before, hole] = [one.holes[near], other.holes[far]];
  if (hole < 0) return [];
  state.lay(other, false);
  state.put(one, near, hole);
  return [
    () => {
      state.put(one, near, before);
      state.lay(other, true);
    },
  ];
}

/** Two ends of one net change holes: crossed wires part. */
function exchange(state: WiringState, line: Movable, end: End, random: Random): Move | undefined {
  const here = state.strip(line.strips[end]);
  const other = pick(state.lines, random);
  const otherEnd: End = random() < 0.5 ? 0 : 1;
  if (!other?.there || other.locked || other === line || other.holes[otherEnd] < 0) return undefined;
  const there = state.strip(other.strips[otherEnd]);
  if (there.net !== here.net || there.rail !== here.rail || line.atSwitch[end] || other.atSwitch[otherEnd]) return undefined;
  if (here !== there && (line.staysInStrips || other.staysInStrips)) return undefined;
  if (here.board !== there.board && !(line.isWire && other.isWire)) return undefined;
  const [a, b] = [line.holes[end], other.holes[otherEnd]];
  const swap = (toLine: number, toOther: number) => {
    state.put(line, end, toLine);
    state.put(other, otherEnd, toOther);
  };
  const cost = state.cost([line, other]);
  swap(b, a);
  const undo = () => swap(a, b);
  const joinsItself = [line, other].some(({ strips }) => strips[0] === strips[1]);
  if (joinsItself || !spansWell(line) || !spansWell(other) || !isWhole(state, here.net)) {
    undo();
    return undefined;
  }
  return { dearer: state.cost([line, other]) - cost, undo };
}

/** A part along its board, with everything that is plugged into its strips. */
function shift(state: WiringState, random: Random): Move | undefined {
  const stand = pick(state.stands, random);
  const rows = Math.round((2 * random() - 1) * FARTHEST);
  if (!stand || rows === 0) return undefined;
  const strips = new Set(stand.legs.map((hole) => state.index.stripOfHole[hole] as number));
  const followers = state.lines.filter(({ there, strips: ends }) => there && ends.some((strip) => strips.has(strip)));
  if (followers.some(({ locked }) => locked)) return undefined;
  const cost = state.cost(state.lines);
  const undo = shiftStand(state, stand, strips, followers, rows);
  if (!undo) return undefined;
  if (!followers.every(spansWell)) {
    undo();
    return undefined;
  }
  return { dearer: state.cost(state.lines) - cost, undo };
}

function undoAll(undos: readonly Undo[]): void {
  for (let i = undos.length - 1; i >= 0; i--) undos[i]?.();
}

function spansWell({ isWire, line, strips, there }: Movable): boolean {
  if (!there) return true;
  if (strips[0] === strips[1]) return false;
  const span = lengthOf(line);
  return isWire || (span >= SPAN.least && span <= SPAN.most);
}
