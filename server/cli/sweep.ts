/** `sweep PLAN`: every combination of the switches that set the inputs, as a table of address, byte and LEDs. */
import type { Plan } from '../../shared/plan.ts';
import { done, type Outcome, siFormat, sweep } from '../../sim-core/index.ts';
import { bits, table } from './columns.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';
import { labelsOf } from './reading.ts';

export const SWEEP: ShellCommand = {
  name: 'sweep',
  means: 'set the address switches to every combination and print what the LEDs show',
  takes: 'PLAN',
  options: {},
  run({ words: [name = ''] }) {
    const plan = findPlan(name);
    return plan.ok ? answer(sweepPlan(plan.value), saySweep) : plan;
  },
};

interface SweptRow {
  /** bit i is the level of input i */
  readonly row: number;
  /** hexadecimal when all bits are known, else binary with X */
  readonly memories: ReadonlyArray<{ readonly part: string; readonly address: string; readonly byte: string }>;
  readonly leds: ReadonlyArray<{ readonly led: string; readonly brightness: string; readonly amps: number }>;
}

interface Swept {
  readonly inputs: ReadonlyArray<{ readonly name: string; readonly pin: string; readonly part: string; readonly pole: number }>;
  readonly leds: ReadonlyArray<{ readonly led: string; readonly label?: string }>;
  readonly rows: readonly SweptRow[];
}

function sweepPlan(plan: Plan): Outcome<Swept> {
  const swept = sweep(plan);
  if (!swept.ok) return swept;
  const { inputs, rows } = swept.value;
  const labels = labelsOf(plan);
  return done({
    inputs: inputs.map(({ name, pin, part, pole }) => ({ name, pin, part, pole: pole + 1 })),
    leds: (rows[0]?.leds ?? []).map(({ led, part }) => ({ led, ...labels(part) })),
    rows: rows.map(({ row, memories, leds }) => ({
      row,
      memories: memories.map(({ part, address, data }) => ({ part, address: bits(address, 3), byte: data ? bits(data, 2) : 'off' })),
      leds: leds.map(({ led, brightness, amps }) => ({ led, brightness, amps })),
    })),
  });
}

function saySweep({ inputs, leds, rows }: Swept): string {
  const memories = rows[0]?.memories ?? [];
  const head = [
    ...inputs.map((i) => i.name),
    ...memories.flatMap(({ part }) => (memories.length > 1 ? [`${part} address`, `${part} byte`] : ['address', 'byte'])),
    ...leds.map((l) => l.label ?? l.led),
  ];
  const switches = inputs.map((i) => `${i.name} is ${i.part}.${i.pole}, on ${i.pin}`).join('; ');
  const body = rows.map(({ row, memories, leds }) => [
    ...inputs.map((_, i) => String((row >> i) & 1)),
    ...memories.flatMap((m) => [m.address, m.byte]),
    ...leds.map((l) => `${l.brightness} ${siFormat(l.amps, 'A')}`),
  ]);
  return `${switches}\n${table([head, ...body])}`;
}
