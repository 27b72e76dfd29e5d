/** The broken greenhouses: the whole bench with one mistake made, supply on, set so that the mistake shows. */

import type { Plan } from '../../shared/plan.ts';
import { apply, invert } from '../document/changes.ts';
import { SENSORS, switchesFor } from './greenhouse-rules.ts';
import type { Mistake } from './mistakes.ts';

/** "hot and windy are on, the other sensors off" */
function settingSays(on: Mistake['sensors']): string {
  if (on.length === 0) return 'all five sensors are off';
  return `${on.join(' and ')} ${on.length === 1 ? 'is' : 'are'} on, the other sensors off`;
}

export function composeBroken({ title, led, sensors, whole, fix }: Mistake): Plan {
  const called = whole.parts.find((p) => p.id === led)?.label ?? led;
  return {
    ...apply(whole, invert(fix)),
    title,
    notes: [
      `This bench has a fault. With the switches as set, ${settingSays(sensors)}; by the rules ${led} (${called}) lights. Ask why it does not.`,
    ],
    switches: { ...whole.switches, PS1: [true], S1: switchesFor(...SENSORS.filter((s) => sensors.includes(s))) },
  };
}
