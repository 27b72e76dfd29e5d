/** Which outputs of a table no image can hold on this bench, memory by memory, and what each one needs. */
import type { PlanWanted } from '../../shared/plan.ts';
import type { MemoryPins } from '../findings/table-pins.ts';

/** chips: the memories that hold a part of the table. memories: all on the bench. One sentence a memory that is left out. */
export function sayLeftOut(wanted: PlanWanted, chips: readonly MemoryPins[], memories: readonly string[]): readonly string[] {
  const held = new Set(chips.flatMap((c) => c.data));
  const left = new Map<string, string[]>();
  for (const [i, { name, pin }] of wanted.outputs.entries()) {
    if (held.has(i)) continue;
    const id = pin.slice(0, pin.indexOf('.'));
    left.set(id, [...(left.get(id) ?? []), `${name} (${pin})`]);
  }
  const inputs = wanted.inputs.map((i) => i.name).join(', ');
  return [...left].map(([id, outputs]) => {
    const what = outputs.join(', ');
    if (!memories.includes(id)) return `${what}: there is no memory ${id} on this bench. Correct the pin on the Table page.`;
    return chips.some((c) => c.memory === id)
      ? `${what}: ${id} has no such data pin. Correct the pin on the Table page.`
      : `${what}: not every input of the table (${inputs}) is on an address pin of ${id}. Wire each switch to it, or correct the pins on the Table page.`;
  });
}
