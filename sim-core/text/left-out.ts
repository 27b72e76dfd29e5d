/** Which outputs of a table no image holds on this bench, memory by memory, and what is missing for each. */
import type { PlanWanted } from '../../shared/plan.ts';
import type { MemoryPins } from '../findings/table-pins.ts';

/** chips: the memories that hold a part of the table. memories: all that stand on the bench. One sentence a memory that is left out. */
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
    if (!memories.includes(id)) return `${what}: there is no memory ${id} on this bench. Name the right pin on the page Table.`;
    return chips.some((c) => c.memory === id)
      ? `${what}: ${id} has no such data pin. Name the right pin on the page Table.`
      : `${what}: not every input of the table (${inputs}) is on an address pin of ${id}. Wire each switch to it, or name the right pins on the page Table.`;
  });
}
