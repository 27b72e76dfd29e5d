/** In which figures two specimens of one part differ, as they print. */
import type { PlanPart } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import { siFormat } from '../units/quantity.ts';

/** 'is' of the one, 'other' of the other, "5 V, 500 mA"; undefined where no figure differs, or the two are not of one kind that is known. */
export function valuesApart(part: PlanPart, another: PlanPart): { readonly is: string; readonly other: string } | undefined {
  const kind = partKind(part.kind);
  const [one, two] = [kind && readParams(kind, part), kind && readParams(kind, another)];
  if (!kind || part.kind !== another.kind || !one?.ok || !two?.ok) return undefined;
  const differ = kind.params.filter(({ name }) => !sameValue(one.value[name], two.value[name]));
  if (differ.length === 0) return undefined;
  const print = (values: Readonly<Record<string, unknown>>) =>
    differ.map((p) => (p.type === 'number' ? siFormat(Number(values[p.name]), p.unit) : String(values[p.name]))).join(', ');
  return { is: print(one.value), other: print(two.value) };
}
