/** Whoever records a running bench: told of every moment that is computed, and of every time that the bench is put together again. */
import type { BuiltCircuit } from './built-circuit.ts';

export interface Watcher {
  /** the bench as it is built from now on */
  attached(built: BuiltCircuit): void;
  /** node voltages at this moment [s], [V]; two calls for one moment are a jump */
  note(now: number, x: Float64Array): void;
}
