/** A memory that holds other bytes than the plan's truth table wants: which row is the first, how many there are, and at which pins. */
import type { Plan } from '../../../shared/plan.ts';
import type { ChipSite, Circuit } from '../../run/circuit.ts';
import { DATA_5A, memoryBench, writeButton } from '../example-benches.ts';
import { reachOf } from '../reach.ts';
import { toPart, toPin } from '../refs.ts';
import { defineRule, type Remark } from '../rule.ts';

export const notAsWanted = defineRule({
  code: 'memory/not-as-wanted',
  severity: 'broken',
  reads: 'stored',
  look: ({ circuit, memories }) => circuit.chips.flatMap((chip) => compare(circuit, chip, memories[chip.placed.part.id])),
  bad: { none: 'The text notation has no truth tables; tests/unit/findings.test.ts gives a memory one.' },
  good: { bench: memoryBench(DATA_5A + writeButton()) },
});

function compare(circuit: Circuit, chip: ChipSite, image: Plan['memories'][string] | undefined): readonly Remark[] {
  const { wanted } = circuit.plan;
  const { word } = chip.spec;
  if (!wanted || !word) return [];
  const id = chip.placed.part.id;
  const lines = wanted.outputs.flatMap(({ pin, activeLow }, line) => {
    const bit = word.data.findIndex((name) => `${id}.${name}` === pin);
    return bit < 0 ? [] : [{ line, bit, flips: activeLow ? 1 : 0 }];
  });
  const ways = addressOf(circuit, chip, word.address);
  if (lines.length === 0 || !ways) return [];
  const bytes = bytesOf(image);
  let count = 0;
  let first: { row: number; address: number; stored: number; wants: number } | undefined;
  let differs = 0;
  for (const [row, value] of wanted.rows.entries()) {
    const address = ways.reduce((a, way, bit) => a | ((way < 0 ? way + 2 : (row >> way) & 1) << bit), 0);
    const stored = bytes.get(address) ?? ERASED;
    let wants = stored;
    for (const { line, bit, flips } of lines)
      if (!(((wanted.free?.[row] ?? 0) >> line) & 1)) wants = (wants & ~(1 << bit)) | ((((value >> line) & 1) ^ flips) << bit);
    if (wants === stored) continue;
    count += 1;
    differs |= wants ^ stored;
    first ??= { row, address, stored, wants };
  }
  if (!first) return [];
  const pins = word.data.flatMap((name, bit) => {
    const output = (differs >> bit) & 1 ? chip.outputs.find((o) => o.name === name) : undefined;
    return output ? [toPin(output.leg)] : [];
  });
  const blank = [...bytes.values()].every((b) => b === ERASED);
  const hex = (n: number, digits: number) => n.toString(16).toUpperCase().padStart(digits, '0');
  return [
    {
      at: [toPart(chip.placed), ...pins],
      ...(blank ? { severity: 'hint' } : {}),
      data: {
        rows: count,
        pins: pins.length,
        of: wanted.rows.length,
        row: first.row,
        address: hex(first.address, Math.ceil(word.address.length / 4)),
        stored: hex(first.stored, 2),
        wants: hex(first.wants, 2),
        blank: blank ? 'yes' : 'no',
      },
    },
  ];
}

/** What a cell that a plan does not name reads. */
const ERASED = 0xff;

/** By address bit: the wanted input that names it or shares its net, or −2 for low and −1 for high; undefined if an input reaches no address pin. */
function addressOf(circuit: Circuit, chip: ChipSite, names: readonly string[]): number[] | undefined {
  const wanted = circuit.plan.wanted?.inputs ?? [];
  const reach = reachOf(circuit);
  const isRail = (net: number) => reach.plus.has(net) || reach.minus.has(net);
  const nets = wanted.map(({ pin }) => netOfPin(circuit, pin));
  const ways = names.map((name) => {
    const named = wanted.findIndex(({ pin }) => pin === `${chip.placed.part.id}.${name}`);
    const input = chip.inputs.find((i) => i.name === name);
    if (named >= 0 || !input) return named >= 0 ? named : -2;
    const net = circuit.netOf(input.leg).index;
    const shared = isRail(net) ? -1 : nets.indexOf(net);
    if (shared >= 0) return shared;
    const held = [...reach.from(net, 'no lamps').keys()];
    return held.some((n) => reach.plus.has(n)) && !held.some((n) => reach.minus.has(n)) ? -1 : -2;
  });
  return wanted.every((_, line) => ways.includes(line)) ? ways : undefined;
}

function netOfPin(circuit: Circuit, pin: string): number | undefined {
  const [id = '', name] = [pin.slice(0, pin.indexOf('.')), pin.slice(pin.indexOf('.') + 1)];
  const placed = circuit.placed.get(id);
  const at = placed?.kind.pins(placed.params).findIndex((p) => p.name === name) ?? -1;
  const leg = placed?.legs[at];
  return leg && circuit.netOf(leg).index;
}

function bytesOf(image: Plan['memories'][string] | undefined): ReadonlyMap<number, number> {
  const bytes = new Map<number, number>();
  for (const [first, row] of Object.entries(image ?? {}))
    for (let i = 0; 2 * i < row.length; i++) bytes.set(Number.parseInt(first, 16) + i, Number.parseInt(row.slice(2 * i, 2 * i + 2), 16));
  return bytes;
}
