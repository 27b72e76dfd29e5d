/** `margins PLAN`: what every margin of the bench is worth when parts differ from what is printed on them. */
import type { Plan } from '../../shared/plan.ts';
import { done, failed, type Margin, type Method, marginsOf, type Outcome, plain, sayMargin } from '../../sim-core/index.ts';

const METHODS: readonly Method[] = ['worst', 'rss', 'random'];
export const MARGIN_SWITCHES = ['--method', '--seed'] as const;

export interface Judged {
  readonly method: Method;
  readonly seed: number;
  readonly margins: ReadonlyArray<Margin & { readonly says: string }>;
}

export function judgePlan(plan: Plan, words: readonly string[]): Outcome<Judged> {
  let method: Method = 'worst';
  let seed = 1;
  for (let i = 0; i < words.length; i += 2) {
    const [name = '', value] = [words[i], words[i + 1]];
    if (name === '--method') {
      const known = METHODS.find((m) => m === value);
      if (!known) return failed(name, `--method is ${value ?? 'left open'}; give one of ${METHODS.join(', ')}.`);
      method = known;
    } else if (name === '--seed') {
      if (!/^\d{1,9}$/.test(value ?? ''))
        return failed(name, `--seed is ${value ?? 'left open'}; give a whole number of at most nine digits.`);
      seed = Number(value);
    } else return failed(name, `margins takes a plan, --method and --seed; "${name}" is too much.`);
  }
  const margins = marginsOf(plan, method, seed);
  return margins.ok ? done({ method, seed, margins: margins.value.map((m) => ({ ...m, says: plain(sayMargin(m, plan)) })) }) : margins;
}

/** One line a margin, those that do not hold first. */
export function sayJudged({ method, seed, margins }: Judged): string {
  if (margins.length === 0)
    return 'Nothing on this bench has a margin: no write button, no level that a resistor holds, no LED that is lit.';
  const lines = (holds: boolean) => margins.filter((m) => m.holds === holds).map((m) => `${holds ? 'holds' : 'fails'}: ${m.says}`);
  const runs = margins[0]?.runs;
  const drawn = `${runs} specimens drawn from seed ${seed}: with 95 % confidence, at most 5 % of all specimens are worse than the worst of them.`;
  return [...lines(false), ...lines(true), ...(method === 'random' ? [drawn] : [])].join('\n');
}
