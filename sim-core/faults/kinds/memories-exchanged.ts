/** Two memories of one kind stand in each other's place, each with the other's image. */
import type { Plan } from '../../../shared/plan.ts';
import { join, setEntry } from '../../document/changes.ts';
import { defineFault } from '../fault.ts';
import type { FaultBench } from '../fault-bench.ts';
import { tableMemories } from '../images.ts';

const kindOf = ({ plan }: FaultBench, id: string): string | undefined => plan.parts.find((p) => p.id === id)?.kind;

export const memoriesExchanged = defineFault({
  kind: 'memories-exchanged',
  of: 'contents',
  weight: 1,
  visible: 0.3,
  find(bench) {
    const { memories }: Plan = bench.plan;
    const all = tableMemories(bench).map((m) => m.memory);
    return all.flatMap((a, i) =>
      all
        .slice(i + 1)
        .filter((b) => kindOf(bench, a) === kindOf(bench, b) && memories[a] !== undefined && memories[b] !== undefined)
        .map((b) => ({
          where: `${a} ${b}`,
          things: [
            { kind: 'part' as const, id: a },
            { kind: 'part' as const, id: b },
          ],
          places: [],
          change: join(setEntry(bench.plan, 'memories', a, memories[b]), setEntry(bench.plan, 'memories', b, memories[a])),
        })),
    );
  },
});
