/** The examples that stand in each rule's file, by the rule's code, and the findings of one rule among many. */
import type { RuleExamples } from '../../sim-core/findings/example-benches.ts';
import type { Finding } from '../../sim-core/findings/finding.ts';
import type { Rule } from '../../sim-core/findings/rule.ts';

const FILES = import.meta.glob<Readonly<Record<string, unknown>>>('../../sim-core/findings/rules/*/*.ts', { eager: true });

/** Path below rules/, without its ending → what that file exports as …Examples. */
export const RULE_EXAMPLES: ReadonlyMap<string, RuleExamples> = new Map(
  Object.entries(FILES).map(([path, exported]) => {
    const [made, ...more] = Object.entries(exported).filter(([name]) => name.endsWith('Examples'));
    if (!made || more.length > 0) throw new Error(`${path} must export its examples, once`);
    return [path.replace(/^.*\/rules\/|\.ts$/g, ''), (made[1] as () => RuleExamples)()];
  }),
);

export function examplesOf(code: string): RuleExamples {
  const examples = RULE_EXAMPLES.get(code);
  if (!examples) throw new Error(`no examples for ${code}`);
  return examples;
}

/** Those of one rule, with its data. */
export const ofRule = <Data extends object>(rule: Rule<Data>, findings: readonly Finding[]): Finding<Data>[] =>
  findings.filter((f): f is Finding<Data> => f.code === rule.code);
