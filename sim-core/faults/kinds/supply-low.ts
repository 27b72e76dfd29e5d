/** The supply is set too low. */
import { defineFault } from '../fault.ts';
import { withPartAs } from '../moved.ts';

/** So much of the right voltage; our choice. */
const PART = [0.3, 0.4, 0.5] as const;

export const supplyLow = defineFault({
  kind: 'supply-low',
  of: 'supply',
  weight: 0.4,
  visible: 0.9,
  find: (bench) =>
    bench.circuit.supplies.flatMap(({ placed }) => {
      const spec = placed.kind.params.find((p) => p.type === 'number' && p.unit === 'V');
      if (!spec) return [];
      return PART.map((part) => {
        const volts = Math.round(10 * part * Number(placed.params[spec.name])) / 10;
        return withPartAs(bench, placed, { params: { ...placed.part.params, [spec.name]: volts } }, `${volts} V`);
      });
    }),
});
