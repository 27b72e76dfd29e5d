/** The plan of a running bench as it stands now: its switches as they are set, its memories with the bytes that they hold. */
import type { Plan } from '../../shared/plan.ts';
import { withCellStates } from '../document/changes.ts';
import type { BuiltCircuit } from './built-circuit.ts';

/** switches: where the switches stand. */
export function planOf({ circuit, runtime }: BuiltCircuit, switches: Plan['switches']): Plan {
  const { cells: known = {}, ...plan } = circuit.plan;
  const memories = { ...plan.memories };
  // a memory that is gone altogether keeps what is known of it, for the one that replaces it or for an undo
  const cells = Object.fromEntries(Object.entries(known).filter(([id]) => plan.parts.some((p) => p.id === id && p.damaged)));
  for (const { chip, site } of runtime.all) {
    const id = site.placed.part.id;
    const contents = chip.contents();
    if (contents) memories[id] = contents;
    const state = chip.cells?.();
    if (state) cells[id] = state;
  }
  return withCellStates({ ...plan, switches: { ...switches }, memories }, cells);
}
