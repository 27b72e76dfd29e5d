/** From what a rule has seen to its findings: the places, the severity, and the key by which two are one. */
import type { Ref } from '../sentence/wording.ts';
import type { Finding } from './finding.ts';
import { distinct, type Rule } from './rule.ts';

export const findingsOf = <Data extends object>(rule: Rule<Data>, seen: readonly Data[]): Finding<Data>[] =>
  seen.map((data) => {
    const at = refsIn(data);
    const [first] = at;
    return {
      code: rule.code,
      severity: rule.severityOf?.(data) ?? rule.severity,
      at,
      key: `${rule.code} ${first?.kind} ${first?.id} ${rule.apart?.(data) ?? ''}`,
      data,
    };
  });

const isRef = (value: unknown): value is Ref =>
  typeof value === 'object' && value !== null && 'kind' in value && 'id' in value && typeof value.id === 'string';

/** Every reference in the data, in the order of the names. */
const refsIn = (data: object): Ref[] => distinct(Object.values(data).flat().filter(isRef));
