/** A relay whose winding carries too little to operate for certain and too much to release for certain. */

import { inAmps, type Ref, say } from '../../../sentence/wording.ts';
import { FED, type RuleExamples } from '../../example-benches.ts';
import { defineRule, toPart } from '../../rule.ts';

interface Data {
  readonly relay: Ref;
  /** what it carries, from where it operates and below which it releases for certain [A] */
  readonly measured: number;
  readonly limit: number;
  readonly releases: number;
}

export const betweenCurrents = defineRule<Data>({
  code: 'coil/between-currents',
  severity: 'marginal',
  reads: 'moment',
  look: (scene) =>
    scene.circuit.chips.flatMap(({ placed, spec }) => {
      const [limit, releases] = spec.coilMarks ?? [];
      const reading = scene.readings.coils.find((c) => c.part === placed.part.id);
      if (limit === undefined || releases === undefined || !reading) return [];
      const measured = Math.abs(reading.amps);
      return measured >= releases && measured < limit ? [{ relay: toPart(placed), measured, limit, releases }] : [];
    }),
  message: ({ relay, measured, limit, releases }) =>
    say`${relay} may be operated or released: its winding carries ${inAmps(measured)}, and it operates for certain from ${inAmps(limit)} and releases for certain below ${inAmps(releases)}. Give its winding the voltage that it is made for, or none.`,
});

const bench = (volts: string): string => `${FED.replace('PS1 5', `PS1 ${volts}`)}
  wire WA black from -j2 to -a1
  wire WB red from +j2 to +a1
  relay K1 at e15
  wire WK red from a15 to +a15
  wire WM black from j15 to -j16`;

export const betweenCurrentsExamples = (): RuleExamples => ({
  bad: { points: 'K1', bench: bench('3') },
  good: { bench: bench('5') },
});
