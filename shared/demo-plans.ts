/** The demonstration plans, by id: every `*.plan.json` in shared/demos, read at build time. */
import type { Plan } from './plan.ts';
import { readPlan } from './read-plan.ts';

export interface DemoPlan {
  /** the file's name without `.plan.json` */
  readonly id: string;
  readonly plan: Plan;
}

const texts = import.meta.glob<string>('./demos/*.plan.json', { query: '?raw', import: 'default', eager: true });

/** The first is what a newcomer sees; what is not named here comes last, by its id. */
const ORDER = ['greenhouse', 'greenhouse-blank', 'wind-vane', 'braille-tutor', 'adding-machine', 'ticket-counter', 'ferry-ramp'];
const placeOf = (id: string): number => (ORDER.includes(id) ? ORDER.indexOf(id) : ORDER.length);

/** In the order that they are offered in. A demonstration that cannot be read is a bug of ours. */
export const DEMO_PLANS: readonly DemoPlan[] = Object.entries(texts)
  .map(([file, text]) => {
    const id = file.replace(/^.*\/|\.plan\.json$/g, '');
    const read = readPlan(text);
    if (!read.ok) throw new Error(`${id}: ${read.failure.says}`);
    return { id, plan: read.value };
  })
  .sort((a, b) => placeOf(a.id) - placeOf(b.id) || (a.id < b.id ? -1 : 1));

export const demoPlan = (id: string): Plan | undefined => DEMO_PLANS.find((d) => d.id === id)?.plan;
