/** The supply's current limit is set lower than what the bench draws. */
import { defineFault } from '../fault.ts';
import { withPartAs } from '../moved.ts';

/** [A]; our choice: below what one LED and its chips take */
const LIMITS = [1e-3, 2e-3, 5e-3] as const;

export const supplyLimits = defineFault({
  kind: 'supply-limits',
  of: 'supply',
  weight: 0.3,
  visible: 0.9,
  find: (bench) =>
    bench.circuit.supplies.flatMap(({ placed }) => {
      const spec = placed.kind.params.find((p) => p.type === 'number' && p.unit === 'A');
      if (!spec) return [];
      return LIMITS.map((amps) => withPartAs(bench, placed, { params: { ...placed.part.params, [spec.name]: amps } }, `${1e3 * amps} mA`));
    }),
});
