/** The widest bench that the builder draws up, unproven: sixteen inputs, sixteen outputs, two EEPROMs 64K × 8 that share their address wires, a buffer and eight LEDs each. */
import type { Plan } from '../../shared/plan.ts';
import { type BuildRequest, draftPlan } from '../../sim-core/index.ts';

/** A word a row, of any two rows another one with near certainty. */
export const wideWord = (row: number): number => (Math.imul(row + 1, 2654435761) >>> 9) & 0xffff;

export function wideBuild(more: Partial<BuildRequest> = {}): Plan {
  const drafted = draftPlan({
    title: 'Sixteen by sixteen',
    inputs: Array.from({ length: 16 }, (_, i) => `in ${i}`),
    outputs: Array.from({ length: 16 }, (_, i) => ({ name: `out ${i}` })),
    rows: Array.from({ length: 65536 }, (_, row) => wideWord(row)),
    memory: 'eeprom-64kx8',
    byHand: false,
    show: 'leds',
    buffered: true,
    amps: 4e-3,
    ...more,
  });
  if (!drafted.ok) throw new Error(drafted.failure.says);
  return drafted.value.plan;
}
