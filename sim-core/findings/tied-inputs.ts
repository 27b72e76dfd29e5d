/** Inputs that stand at one level whatever the switches: tied to one side of the supply, with nothing that could bring them to the other. */
import type { Leg } from '../board/layout.ts';
import type { Level } from '../parts/part.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { reachOf } from './resistive-reach.ts';

/** H: to a supply's plus, L: to its minus, by wires and resistors, with no contact, output or other side in reach that could move it; undefined: it is not tied. */
export function tiedLevel(circuit: Circuit, leg: Leg): 'H' | 'L' | undefined {
  const reach = reachOf(circuit);
  const { index } = circuit.netOf(leg);
  const rails = [reach.plus.has(index), reach.minus.has(index)] as const;
  if (rails[0] || rails[1]) return rails[0] && rails[1] ? undefined : rails[0] ? 'H' : 'L';
  const always = [...reach.from(index, 'no LEDs', () => true).keys()];
  const ever = [...reach.from(index, 'no LEDs').keys()];
  const meets = (nets: readonly number[], ends: ReadonlySet<number>) => nets.some((net) => ends.has(net));
  if (meets(ever, reach.outputs)) return undefined;
  const [plus, minus] = [meets(ever, reach.plus), meets(ever, reach.minus)];
  if (plus === minus) return undefined;
  return plus ? (meets(always, reach.plus) ? 'H' : undefined) : meets(always, reach.minus) ? 'L' : undefined;
}

/** Does this output reach an LED, or another chip's input, by wires and resistors? */
function isShown(circuit: Circuit, chip: ChipSite, leg: Leg): boolean {
  const reach = reachOf(circuit);
  const { index } = circuit.netOf(leg);
  if (reach.plus.has(index) || reach.minus.has(index)) return false;
  const near = new Set(reach.from(index, 'no LEDs').keys());
  const free = (net: number) => near.has(net) && !reach.plus.has(net) && !reach.minus.has(net);
  return (
    circuit.leds.some((l) => free(circuit.netOf(l.anode).index) || free(circuit.netOf(l.cathode).index)) ||
    circuit.chips.some((c) => c !== chip && c.inputs.some((i) => free(circuit.netOf(i.leg).index)))
  );
}

/** An input whose tied level keeps outputs from doing what they are for. */
export interface WrongEnable {
  readonly input: ChipSite['inputs'][number];
  readonly level: 'H' | 'L';
  /** what it keeps so, those that lead to something */
  readonly outputs: ChipSite['outputs'];
  /** they are high-impedance, or at one level whatever the other inputs */
  readonly so: 'high-impedance' | 'constant';
}

const OTHER = { H: 'L', L: 'H' } as const;

/** Of a memory its control inputs at the level at which it does not drive; of other chips an input that moves several outputs and keeps all of them still. */
export function wrongEnables(circuit: Circuit, chip: ChipSite): readonly WrongEnable[] {
  const outputs = chip.outputs.filter((o) => isShown(circuit, chip, o.leg));
  const tied = chip.inputs.map((i) => tiedLevel(circuit, i.leg));
  const { toRead = {}, answers, moves } = chip.spec;
  return chip.inputs.flatMap((input, i): WrongEnable[] => {
    const level = tied[i];
    if (level === undefined || outputs.length === 0) return [];
    if (input.name in toRead) return toRead[input.name] === level ? [] : [{ input, level, outputs, so: 'high-impedance' }];
    if (!answers || (moves?.[i]?.length ?? 0) < 2) return [];
    const answer = (o: ChipSite['outputs'][number], here: Level) =>
      answers(chip.outputs.indexOf(o), (k) => (k === i ? here : (tied[k] ?? 'X')));
    const [now, other] = [
      (o: ChipSite['outputs'][number]) => answer(o, level),
      (o: ChipSite['outputs'][number]) => answer(o, OTHER[level]),
    ];
    const off = outputs.filter((o) => now(o) === 'Z' && other(o) !== 'Z');
    if (off.length > 0) return [{ input, level, outputs: off, so: 'high-impedance' }];
    // a select input that is tied keeps some outputs still, and others go on
    const moved = outputs.filter((o) => moves?.[i]?.includes(chip.outputs.indexOf(o)));
    const still = moved.length > 0 && moved.every((o) => (now(o) === 'L' || now(o) === 'H') && other(o) === 'X');
    return still ? [{ input, level, outputs: moved, so: 'constant' }] : [];
  });
}
