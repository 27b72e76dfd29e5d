/**
 * Loops of gates in which nothing is known because each waits for the other: an oscillator before its first edge, as long as it is only reasoned about.
 *
 * An output whose level is unknown is supposed low, then high, and what follows from it is worked out where the bench would rest. If the output's own
 * gate contradicts one of the two, it cannot stay there: the loop has one state at most, and a bench that is switched on goes to it, or swings. So the
 * gate is told the level at which its input really is, and everything else follows in time. If neither is contradicted, the loop holds either state, and
 * which of the two it has taken stays unknown.
 */
import { GROUND, OFF, PULL_HIGH, PULL_LOW, type Pull } from '../../devices/network.ts';
import type { Level } from '../../parts/part.ts';
import type { BuiltCircuit } from '../built-circuit.ts';
import type { ChipInput } from '../circuit/sites.ts';
import { levelAt } from './chip-runtime.ts';
import { pullsNothing, type RunningChip } from './chip-slot.ts';

interface Gate {
  readonly slot: RunningChip;
  readonly output: number;
}

/** Does a supposed level stay, or does what follows from it contradict it? */
type Verdict = 'stays' | 'contradicted' | 'open';

/** Tells one gate of each such loop where its input is; false if there is no such loop. */
export function startLoops(built: BuiltCircuit, now: number): boolean {
  const { runtime, floatingInputs } = built;
  const gates = undecidedGates(runtime.all);
  /** what follows from gates that have been told is not told beside */
  const followed = new Set<Gate>();
  for (const gate of gates) {
    const input = openInput(gate);
    const reached = reachedBy(built, gates, gate);
    if (input === undefined || followed.has(gate) || !reached.has(gate)) continue;
    const verdicts = ([PULL_LOW, PULL_HIGH] as const).map((pull) => suppose(built, gates, gate, pull));
    if (verdicts.includes('open') || verdicts.every((v) => v === 'stays')) continue;
    const { slot } = gate;
    const level = levelAt(built.solver.x, (slot.site.inputs[input] as ChipInput).node, slot.site, slot.site.inputs[input] as ChipInput);
    slot.level[input] = level === 'H' ? 'H' : 'L';
    slot.chip.levelChanged(input, 'X', now);
    for (const other of reached) followed.add(other);
  }
  floatingInputs.changed();
  return followed.size > 0;
}

/** Outputs of gates that are unknown, by name. */
const undecidedGates = (slots: readonly RunningChip[]): Gate[] =>
  slots
    .flatMap((slot) =>
      slot.site.spec.answers === undefined ? [] : slot.may.flatMap((_, output) => (pullsNothing(slot, output) ? [{ slot, output }] : [])),
    )
    .sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1));

const nameOf = ({ slot, output }: Gate): string => `${slot.site.placed.part.id} ${slot.site.outputs[output]?.name}`;

const answerOf = ({ slot, output }: Gate, level: (input: number) => Level): Level | 'Z' | undefined =>
  slot.site.spec.answers?.(output, level);

/** The inputs of this gate that it does not know and that matter to it. */
const openInputs = ({ slot, output }: Gate): number[] =>
  [...slot.level.keys()].filter(
    (i) =>
      slot.level[i] === 'X' &&
      (['L', 'H'] as const).some((level) => {
        const answer = answerOf({ slot, output }, (k) => (k === i ? level : (slot.level[k] ?? 'X')));
        return answer === 'L' || answer === 'H';
      }),
  );

const openInput = (gate: Gate): number | undefined =>
  openInputs(gate).find((i) => !gate.slot.site.burnt.has((gate.slot.site.inputs[i] as ChipInput).name));

/** Gates that this one's output reaches, by way of other undecided gates; itself too if it is in a loop. Blocks are gone through, without solving anything. */
function reachedBy({ circuit }: BuiltCircuit, gates: readonly Gate[], from: Gate): ReadonlySet<Gate> {
  const block = (node: number) => circuit.partition.blockOf(node);
  const outputOf = (gate: Gate) => block(gate.slot.site.outputs[gate.output]?.node ?? GROUND);
  const blocks = new Set([outputOf(from)]);
  const reached = new Set<Gate>();
  const moves = ({ slot, output }: Gate, input: number) => slot.site.spec.moves?.[input]?.includes(output) ?? true;
  const hears = (gate: Gate) =>
    gate.slot.site.inputs.some((pin, i) => gate.slot.level[i] === 'X' && moves(gate, i) && blocks.has(block(pin.node)));
  for (let before = -1; before !== reached.size; ) {
    before = reached.size;
    for (const gate of gates)
      if (hears(gate)) {
        reached.add(gate);
        blocks.add(outputOf(gate));
      }
  }
  return reached;
}

/** What follows if this output pulls so: outputs that are known by then pull too, until no more follows. */
function suppose(built: BuiltCircuit, gates: readonly Gate[], first: Gate, pull: Pull): Verdict {
  const { circuit, solver, floatingInputs } = built;
  const { network } = circuit;
  const deviceOf = ({ slot, output }: Gate) => slot.site.outputs[output]?.device;
  const x = solver.end.slice();
  const set = (gate: Gate, to: Pull) => {
    const device = deviceOf(gate);
    if (device) network.setPull(device, to);
  };
  const pulling = new Map<Gate, Pull>([[first, pull]]);
  set(first, pull);
  let verdict: Verdict = 'open';
  for (let grown = true; grown && verdict === 'open'; ) {
    grown = false;
    if (!solver.restFor(x)) break;
    floatingInputs.changed();
    const unknown = unknownBlocks(built, new Set([...pulling.keys()].map(deviceOf)));
    // all of them from the same voltages, before any of them pulls
    const answers = gates.map((gate) => answerAt(built, gate, x, unknown));
    for (const [k, gate] of gates.entries()) {
      const answer = answers[k];
      if (answer !== 'L' && answer !== 'H') continue;
      const to = answer === 'H' ? PULL_HIGH : PULL_LOW;
      if (gate === first) verdict = to === pull ? 'stays' : 'contradicted';
      else if (!pulling.has(gate)) {
        pulling.set(gate, to);
        set(gate, to);
        grown = true;
      }
    }
  }
  for (const gate of pulling.keys()) set(gate, OFF);
  return verdict;
}

/** Blocks with an output whose pull is unknown, and not supposed either: where they come to rest is unknown. */
function unknownBlocks({ circuit, runtime }: BuiltCircuit, supposed: ReadonlySet<unknown>): ReadonlySet<number> {
  const blocks = new Set<number>();
  for (const slot of runtime.all)
    for (const [output, { device, node }] of slot.site.outputs.entries())
      if (pullsNothing(slot, output) && !supposed.has(device)) blocks.add(circuit.partition.blockOf(node));
  return blocks;
}

/** What a gate answers at these voltages, with what its known inputs know; nothing is known in these unknown blocks. */
function answerAt(
  { circuit, floatingInputs }: BuiltCircuit,
  gate: Gate,
  x: Float64Array,
  unknown: ReadonlySet<number>,
): Level | 'Z' | undefined {
  const { site, level } = gate.slot;
  return answerOf(gate, (i) => {
    const pin = site.inputs[i] as ChipInput;
    if (level[i] !== 'X') return level[i] as Level;
    if (site.burnt.has(pin.name) || unknown.has(circuit.partition.blockOf(pin.node))) return 'X';
    // an open input that counts as high is known; one that floats here waits for an output
    return floatingInputs.floats(site, i, x) ? 'X' : levelAt(x, pin.node, site, pin);
  });
}
