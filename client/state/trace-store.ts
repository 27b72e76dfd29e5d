/** What the bench has recorded of its memories' pins: the last write or read of each, which one is looked at, and the moment in it that a cursor stands at. */
import type { Trace } from '../core.ts';
import type { BenchModel } from './bench-model.ts';

/** No more memories than these are recorded at a time. */
const MOST = 8;

export interface TraceStore {
  /** the newest one */
  readonly trace: Trace | undefined;
  /** the moment that is looked at in it [s of simulated time]; undefined: now, on the live bench */
  readonly cursor: number | undefined;
  of(part: string): Trace | undefined;
  stand(standing: BenchModel): void;
  take(traces: readonly Trace[]): void;
  /** moves the cursor; undefined: back to the live bench */
  look(time: number | undefined): void;
  on(ear: () => void): () => void;
}

/** watch: asks the bench to record these parts. */
export function makeTraceStore(watch: (parts: readonly string[]) => void): TraceStore {
  const ears = new Set<() => void>();
  const traces = new Map<string, Trace>();
  let watched = '';
  let newest: Trace | undefined;
  let cursor: number | undefined;
  const say = () => {
    for (const ear of ears) ear();
  };
  return {
    get trace() {
      return newest;
    },
    get cursor() {
      return cursor;
    },
    of: (part) => traces.get(part),
    stand({ specimens }) {
      const parts = specimens
        .filter((s) => s.isChip && s.kind.group === 'memory')
        .map((s) => s.part.id)
        .slice(0, MOST);
      for (const part of [...traces.keys()]) if (!parts.includes(part)) traces.delete(part);
      if (newest && !traces.has(newest.part)) [newest, cursor] = [undefined, undefined];
      if (parts.join() !== watched) watch(parts);
      watched = parts.join();
      say();
    },
    take(now) {
      for (const trace of now) {
        traces.set(trace.part, trace);
        newest = trace;
      }
      cursor = undefined;
      say();
    },
    look(time) {
      cursor = time;
      say();
    },
    on(ear) {
      ears.add(ear);
      return () => ears.delete(ear);
    },
  };
}
