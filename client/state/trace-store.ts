/** What the bench has recorded of its memories' pins: the last write or read of each, which one is looked at, and the moment in it that a cursor stands at. */
import type { Trace } from '../../sim-core/index.ts';
import type { BenchModel } from './bench-model.ts';

/** No more memories than these are recorded at a time. */
const MOST = 8;

export class TraceStore {
  private newest: Trace | undefined;
  private moment: number | undefined;
  /** the last recording of each memory, by part */
  private readonly traces = new Map<string, Trace>();
  /** the parts that are recorded, as they were last asked for */
  private watched: readonly string[] = [];
  private readonly listeners = new Set<() => void>();

  /** watch: asks the bench to record these parts. */
  constructor(private readonly watch: (parts: readonly string[]) => void) {}

  /** the newest one */
  get trace(): Trace | undefined {
    return this.newest;
  }
  /** the moment that is looked at in it [s of simulated time]; undefined: now, on the live bench */
  get cursor(): number | undefined {
    return this.moment;
  }
  of(part: string): Trace | undefined {
    return this.traces.get(part);
  }

  /** This is what stands now: recordings of memories that are gone go too. */
  stand({ specimens }: BenchModel): void {
    const parts = specimens
      .filter((s) => s.isChip && s.kind.group === 'memory')
      .map((s) => s.part.id)
      .slice(0, MOST);
    for (const part of [...this.traces.keys()]) if (!parts.includes(part)) this.traces.delete(part);
    if (this.newest && !this.traces.has(this.newest.part)) [this.newest, this.moment] = [undefined, undefined];
    if (parts.join() !== this.watched.join()) this.watch(parts);
    this.watched = parts;
    this.say();
  }

  /** These have just been recorded. */
  take(traces: readonly Trace[]): void {
    for (const trace of traces) {
      this.traces.set(trace.part, trace);
      this.newest = trace;
    }
    this.moment = undefined;
    this.say();
  }

  /** Moves the cursor; undefined: back to the live bench. */
  look(time: number | undefined): void {
    this.moment = time;
    this.say();
  }

  /** The answer ends the listening. */
  on(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }

  private say(): void {
    for (const listener of this.listeners) listener();
  }
}
