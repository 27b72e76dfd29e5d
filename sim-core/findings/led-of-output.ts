/** Which LED shows an output of the wanted table: the one that the table names, else the one that is called as the output is. */
import type { Plan } from '../../shared/plan.ts';
import { led } from '../parts/led.ts';

/** The part of this LED, 'LED3' or 'DS1.a', is on the bench. */
export const stands = ({ parts }: Pick<Plan, 'parts'>, ledId: string): boolean => parts.some((p) => p.id === ledId.split('.')[0]);

type WantedOutput = NonNullable<Plan['wanted']>['outputs'][number];

/** Ids such as 'LED3' or 'DS1.a': none where nothing shows the output, several where several LEDs are called so. Other parts of the same name do not count. */
export function ledsOfOutput({ parts }: Pick<Plan, 'parts'>, { name, led: named }: WantedOutput): readonly string[] {
  if (named !== undefined) return [named];
  return parts.filter((p) => p.kind === led.id && (p.label ?? p.id) === name).map((p) => p.id);
}
