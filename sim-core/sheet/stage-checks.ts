/** The checks at the end of each stage of a plan, in the order in which they are made: supply off first. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { CheckBench } from './check-bench.ts';
import { legChecks, powerOnChecks } from './fitted-checks.ts';
import { apartChecks, capacitorChecks, joinChecks, lightChecks, resistorChecks } from './path-checks.ts';
import { poleChecks } from './pole-checks.ts';
import type { StageCheck } from './stage-check.ts';
import { STAGES, type StageName } from './stages.ts';
import { railChecks, railsCheck, tieChecks } from './supply-checks.ts';

/** Stages without anything to check are left out; a bench without a supply has none. Fails with `plan/…`. */
export function stageChecks(plan: Plan): Outcome<readonly StageCheck[]> {
  const bench = CheckBench.of(plan);
  if (!bench.ok) return bench;
  const { value } = bench;
  return done(value ? STAGES.flatMap((stage) => checksAfter(value, stage)) : []);
}

function checksAfter(bench: CheckBench, stage: StageName): readonly StageCheck[] {
  if (stage !== 'power' && ![...bench.stages.values()].includes(stage)) return [];
  // chips that are fitted take current at any voltage
  const short = stage === 'chips' ? [] : railsCheck(bench, stage);
  switch (stage) {
    case 'power':
      return [...short, ...railChecks(bench)];
    case 'memory':
      return [...short, ...apartChecks(bench, stage), ...capacitorChecks(bench, stage), ...tieChecks(bench, stage)];
    case 'inputs':
      return [...short, ...poleChecks(bench, stage), ...joinChecks(bench, stage), ...tieChecks(bench, stage)];
    case 'outputs':
      return [
        ...short,
        ...joinChecks(bench, stage),
        ...apartChecks(bench, stage),
        ...resistorChecks(bench, stage),
        ...capacitorChecks(bench, stage),
        ...tieChecks(bench, stage),
        ...lightChecks(bench, stage),
      ];
    case 'writing':
      return [
        ...short,
        ...poleChecks(bench, stage),
        ...apartChecks(bench, stage),
        ...joinChecks(bench, stage),
        ...capacitorChecks(bench, stage),
        ...tieChecks(bench, stage),
      ];
    case 'chips':
      return [...legChecks(bench), ...powerOnChecks(bench)];
  }
}
