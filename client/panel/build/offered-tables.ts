/** The tables that a bench can be built of: that of the bench which stands, then those of the demonstrations. */

import type { Plan } from '../../../shared/plan.ts';
import { type Arrangement, type BenchChoices, type Choices, choicesOfBench, DEMO_TABLES } from '../../../sim-core/index.ts';
import type { TableSource } from '../../worker/jobs.ts';

export interface OfferedTable {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  readonly table: TableSource;
  readonly activeLow: readonly string[];
  readonly arrangement: Arrangement;
  readonly rules: Pick<Choices, 'rules' | 'expressions'>;
  /** what the bench of this table has now, and a new one begins with */
  readonly has?: BenchChoices;
}

/** Of the bench's own table. */
export const OWN = 'own';

export function offeredTables(plan: Plan | undefined): readonly OfferedTable[] {
  const wanted = plan?.wanted;
  const has = plan && wanted ? choicesOfBench(plan) : {};
  const own: OfferedTable[] =
    plan && wanted && wanted.outputs.length > 0
      ? [
          {
            id: OWN,
            title: `The table of this bench: ${plan.title}`,
            says: 'What the Table page wants.',
            table: {
              inputs: wanted.inputs.map((i) => i.name),
              outputs: wanted.outputs.map((o) => o.name),
              rows: wanted.rows,
              ...(wanted.dontCare ? { free: wanted.dontCare } : {}),
            },
            arrangement: has.arrangement ?? 'row',
            has,
            activeLow: wanted.outputs.filter((o) => o.activeLow).map((o) => o.name),
            rules: { rules: wanted.rules, ...(wanted.expressions ? { expressions: wanted.expressions } : {}) },
          },
        ]
      : [];
  return [
    ...own,
    ...DEMO_TABLES.map(({ id, title, description, inputs, outputs, rules, activeLow = [], arrangement = 'row' }) => ({
      id,
      title,
      says: description,
      table: { inputs, outputs, rules },
      activeLow,
      arrangement,
      rules: { expressions: rules.split('\n') },
    })),
  ];
}
