/** The plan's truth table tried on a copy of the bench, as far as it goes quickly: what of it the LEDs do not show. */
import type { Failure } from '../../shared/outcome.ts';
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { digitsByAddress } from '../document/memory-rows.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import { storedDifferences } from './stored-differences.ts';
import { tablePins } from './table-pins.ts';
import { beginProof, type Difference, type TableProof } from './table-proof.ts';

/** Rows between two chances to do something else. */
const AT_ONCE = 64;
/** Rows for which the event engine is needed beyond so many are not tried: each takes a millisecond or more. */
const MOST_BY_EVENTS = 1024;

/** What came of trying the rows; of a table that cannot be gone through, why. */
export interface TriedTable {
  readonly circuit: Circuit;
  readonly wanted: PlanWanted;
  /** of `rows` in all so many were tried */
  readonly tried: number;
  readonly rows: number;
  readonly proof: TableProof;
  /** rows that what the memories hold makes wrong; and whether that is all that this one is wrong by */
  readonly storedRows: number;
  isStored(difference: Difference): boolean;
}
export type TableAttempt = TriedTable | { readonly circuit: Circuit; readonly failure: Failure };

/** Yields now and then. plan: as it stands. Undefined: it has no table to be shown. */
export function* tryTable(circuit: Circuit, plan: Plan): Generator<void, TableAttempt | undefined> {
  const { wanted } = plan;
  if (!wanted || wanted.inputs.length === 0 || wanted.outputs.length === 0) return undefined;
  const begun = beginProof(plan);
  if (!begun.ok) return { circuit, failure: begun.failure };
  const proving = begun.value;
  while (!proving.go(AT_ONCE) && proving.seen - proving.solved < MOST_BY_EVENTS) yield;
  return {
    circuit,
    wanted,
    tried: proving.seen,
    rows: proving.proof.rows,
    proof: proving.proof,
    ...storedIn(circuit, plan, wanted),
  };
}

/** Outputs that differ by what is stored, by row. */
function storedIn(circuit: Circuit, plan: Plan, wanted: PlanWanted): Pick<TriedTable, 'storedRows' | 'isStored'> {
  const bits = new Map<number, number>();
  for (const pins of tablePins(circuit))
    for (const { row, stored, wants } of storedDifferences(wanted, pins, digitsByAddress(plan.memories[pins.memory]))) {
      const outputs = pins.data.reduce<number>(
        (mask, line, bit) => (line !== 'unused' && ((stored ^ wants) >> bit) & 1 ? mask | (1 << line) : mask),
        0,
      );
      bits.set(row, (bits.get(row) ?? 0) | outputs);
    }
  return { storedRows: bits.size, isStored: ({ row, wrong, unknown }) => ((wrong | unknown) & ~(bits.get(row) ?? 0)) === 0 };
}
