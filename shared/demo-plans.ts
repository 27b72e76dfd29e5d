/** The demonstration plans, by id: every `*.plan.json` in shared/demos, read at build time. */
import type { Plan } from './plan.ts';
import { readPlan } from './read-plan.ts';

export interface DemoPlan {
  /** the file's name without `.plan.json` */
  readonly id: string;
  readonly plan: Plan;
  /** what there is to learn from it; undefined: it is a riddle, with a mistake to be found */
  readonly teaches?: string;
}

const texts = import.meta.glob<string>('./demos/*.plan.json', { query: '?raw', import: 'default', eager: true });

/** The first is what a newcomer sees; what is not named here is a riddle and comes last, by its id. */
const TEACHES: Readonly<Record<string, string>> = {
  greenhouse: 'How a memory takes the place of gates: the switches are its address, the LEDs its byte.',
  'greenhouse-blank': 'How a byte is written by hand and read back, without a programmer.',
  'wind-vane': 'Gray code: only one sensor changes from sector to sector.',
  'braille-tutor': 'A code converter: a number in, a pattern of dots out.',
  'adding-machine': 'Arithmetic as a look-up, without a single carry.',
  'ticket-counter': 'BCD in, two 7-segment displays out, the leading zero blanked.',
  'ferry-ramp': 'An interlock: inputs that contradict each other stop everything.',
};
const ORDER = Object.keys(TEACHES);
const placeOf = (id: string): number => (ORDER.includes(id) ? ORDER.indexOf(id) : ORDER.length);

/** In the order that they are offered in. A demonstration that cannot be read is a bug of ours. */
export const DEMO_PLANS: readonly DemoPlan[] = Object.entries(texts)
  .map(([file, text]) => {
    const id = file.replace(/^.*\/|\.plan\.json$/g, '');
    const read = readPlan(text);
    if (!read.ok) throw new Error(`${id}: ${read.failure.says}`);
    const teaches = TEACHES[id];
    return { id, plan: read.value, ...(teaches === undefined ? {} : { teaches }) };
  })
  .sort((a, b) => placeOf(a.id) - placeOf(b.id) || (a.id < b.id ? -1 : 1));

export const demoPlan = (id: string): Plan | undefined => DEMO_PLANS.find((d) => d.id === id)?.plan;
