/** `margins PLAN`: what every margin of the bench is worth when parts differ from their printed values. */
import type { Plan } from '../../shared/plan.ts';
import { done, failed, type Margin, type Method, marginsOf, type Outcome, plain, sayMargin } from '../../sim-core/index.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan } from './plan-file.ts';

const METHODS: readonly Method[] = ['worst', 'rss', 'random'];

export const MARGINS: ShellCommand = {
  name: 'margins',
  means: 'write pulse, levels and LED currents with all parts at their extremes; exit code 1 if a margin does not hold',
  takes: 'PLAN',
  options: {
    method: {
      value: 'METHOD',
      choices: METHODS,
      means: 'all at their worst, root sum of squares, or drawn at random; worst if not given',
    },
    seed: { value: 'N', means: 'begins the random draws; a whole number, 1 if not given' },
  },
  run({ words: [name = ''], values }) {
    const plan = findPlan(name);
    if (!plan.ok) return plan;
    const method = METHODS.find((m) => m === values.method) ?? 'worst';
    if (values.seed !== undefined && method !== 'random')
      return failed('cli/options-clash', '--seed', '--seed means nothing without --method random. Add that, or leave --seed out.');
    if (values.seed !== undefined && !/^\d{1,9}$/.test(values.seed))
      return failed('cli/bad-value', '--seed', `--seed cannot be "${values.seed}". It takes a whole number of at most nine digits.`);
    const judged = judgePlan(plan.value, method, Number(values.seed ?? 1));
    return answer(judged, sayJudged, (j) => (j.margins.every((m) => m.holds) ? 0 : 1));
  },
};

interface Judged {
  readonly method: Method;
  readonly seed: number;
  readonly margins: ReadonlyArray<Margin & { readonly says: string }>;
}

function judgePlan(plan: Plan, method: Method, seed: number): Outcome<Judged> {
  const margins = marginsOf(plan, method, seed);
  return margins.ok ? done({ method, seed, margins: margins.value.map((m) => ({ ...m, says: plain(sayMargin(m, plan)) })) }) : margins;
}

/** One line a margin, those that do not hold first. */
function sayJudged({ method, seed, margins }: Judged): string {
  if (margins.length === 0)
    return 'Nothing on this bench has a margin: no write button, no level that a resistor holds, no LED that is lit.';
  const lines = (holds: boolean) => margins.filter((m) => m.holds === holds).map((m) => `${holds ? 'holds' : 'fails'}: ${m.says}`);
  const runs = margins[0]?.runs;
  const drawn = `${runs} benches drawn at random from seed ${seed}: with 95 % confidence, at most 5 % of all benches are worse than the worst of them.`;
  return [...lines(false), ...lines(true), ...(method === 'random' ? [drawn] : [])].join('\n');
}
