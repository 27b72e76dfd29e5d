/** One experiment on a bench, done again and again with other specimens: at rest with its switches so, a button pressed and released, or one switch moved. */
import type { Plan } from '../../shared/plan.ts';
import type { ChipEvent } from '../parts/part.ts';
import type { Circuit } from '../run/circuit/circuit.ts';
import type { Readings } from '../run/readout/readings.ts';
import { simulate } from '../run/simulation.ts';
import { specimensAt, type Tolerance } from './tolerances.ts';

export interface Experiment {
  /** supplies on, switches as they are to stand */
  readonly plan: Plan;
  /** the button that is pressed and released, without bounce */
  readonly button?: string;
  /** the switch that is moved to its other side, without bounce */
  readonly flip?: { readonly part: string; readonly pole: number };
}

/** What came of it. */
export interface ExperimentReading {
  readonly circuit: Circuit;
  readonly readings: Readings;
  readonly events: readonly ChipEvent[];
}

/** The experiment with these figures at these values; undefined if that bench cannot be built. The same values are tried only once. */
export type ExperimentRunner = (spreads: readonly Tolerance[], values: readonly number[]) => ExperimentReading | undefined;

export function makeExperimentRunner({ plan, button, flip }: Experiment): ExperimentRunner {
  const known = new Map<string, ExperimentReading | undefined>();
  return (spreads, values) => {
    const moved = spreads.flatMap((s, i) =>
      values[i] === s.nominal && s.figure !== 'threshold' ? [] : [[s, values[i] ?? s.nominal] as const],
    );
    const key = moved.map(([s, v]) => `${s.part}.${s.figure}=${v}`).join(' ');
    if (!known.has(key)) {
      const overrides = specimensAt(
        moved.map(([s]) => s),
        moved.map(([, v]) => v),
      );
      const made = simulate(plan, { bounce: false, still: button === undefined && !flip, overrides });
      if (made.ok && button !== undefined) {
        made.value.act({ do: 'press', part: button });
        made.value.act({ do: 'release', part: button });
      }
      if (made.ok && flip) made.value.act({ do: 'set', ...flip, closed: !(plan.switches[flip.part]?.[flip.pole] ?? false) });
      known.set(key, made.ok ? { circuit: made.value.circuit, readings: made.value.readings(), events: made.value.events } : undefined);
    }
    return known.get(key);
  };
}
