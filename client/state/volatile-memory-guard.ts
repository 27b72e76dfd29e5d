/** Bytes put into a memory that forgets without its supply, while it has none: refused, since they would be lost before anybody could read them. */
import type { Change, Failure, Readings } from '../../sim-core/index.ts';
import type { BenchModel } from './bench-model.ts';

/** undefined: whatever the change stores is kept. */
export function volatileMemoryRefusal(change: Change, { specimen }: BenchModel, { chips }: Readings): Failure | undefined {
  const id = storedIn(change).find(
    (part) => specimen.get(part)?.word?.forgets && chips.some((c) => c.part === part && c.state.doing === 'no supply'),
  );
  if (id === undefined) return undefined;
  return {
    code: 'edit/no-supply',
    at: id,
    says: `${id} is volatile and has no supply now, so its bytes would be lost. Switch the supply on, then store them.`,
  };
}

function storedIn(c: Change): string[] {
  if (c.op === 'all') return c.changes.flatMap(storedIn);
  return c.op === 'set' && c.field === 'memories' && c.after ? [c.id] : [];
}
