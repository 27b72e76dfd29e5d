/** `prove PLAN`: every row of the wanted table set by its switches and compared with what the lamps show. */
import type { Plan } from '../../shared/plan.ts';
import { type Outcome, type Proof, prove } from '../../sim-core/index.ts';

export const provePlan = (plan: Plan): Outcome<Proof> => prove(plan);

/** Rows that differ are named up to so many. */
const NAMED = 10;

export function sayProof({ rows, right, differences }: Proof, plan: Plan): string {
  const { inputs = [], outputs = [] } = plan.wanted ?? {};
  const percent = Math.floor((1000 * right) / rows) / 10;
  const names = (mask: number) => outputs.flatMap((o, bit) => ((mask >> bit) & 1 ? [o.name] : []));
  const lines = differences.slice(0, NAMED).map(({ row, wrong, undecided, wanted }) => {
    const when = inputs.flatMap((line, i) => ((row >> i) & 1 ? [line.name] : [])).join(', ') || 'no input';
    const off = [
      ...names(wrong & wanted).map((n) => `${n} should be lit and is not`),
      ...names(wrong & ~wanted).map((n) => `${n} should be dark and is not`),
      ...names(undecided).map((n) => `${n} cannot be told`),
    ];
    return `row ${row} (${when}): ${off.join('; ')}`;
  });
  const more = rows - right - lines.length;
  return [`${right} of ${rows} rows are right: ${percent} %.`, ...lines, ...(more > 0 ? [`and ${more} more rows`] : [])].join('\n');
}
