/** The one mistake in each broken greenhouse: what was done wrong, which lamp shows it at which setting, and the change that undoes it. */
import type { Change } from '../../sim-core/index.ts';
import type { Plan, PlanLead, PlanPart } from '../plan.ts';
import { rail } from './draft.ts';
import { composeGreenhouse } from './greenhouse.ts';
import type { Sensor } from './rules.ts';

export interface Mistake {
  /** the broken plan's id */
  readonly plan: string;
  readonly title: string;
  /** the lamp to ask about, and the sensors that are on: by the rules it should be lit */
  readonly lamp: string;
  readonly sensors: readonly Sensor[];
  readonly cause: string;
  /** the bench before the mistake was made */
  readonly whole: Plan;
  readonly mend: Change;
}

const greenhouse = composeGreenhouse();

function pick<T>(list: readonly T[], fits: (thing: T) => boolean): T {
  const found = list.find(fits);
  if (!found) throw new Error('the greenhouse has changed: a thing that a mistake is about is gone');
  return found;
}
const partOf = (id: string): PlanPart => pick(greenhouse.parts, (p) => p.id === id);
const leadAt = (hole: string): PlanLead => pick(greenhouse.leads, (l) => l.from === hole || l.to === hole);

/** A change that gives a part or a lead back what it should have had. */
const mendPart = (id: string, wrong: Partial<PlanPart>): Change => ({
  op: 'replace-part',
  before: { ...partOf(id), ...wrong },
  after: partOf(id),
});
const mendLead = (hole: string, wrong: Partial<PlanLead>): Change => ({
  op: 'replace-lead',
  before: { ...leadAt(hole), ...wrong },
  after: leadAt(hole),
});

/** The same bench on a board whose rails are cut in the middle: four leads join the halves. */
function splitGreenhouse(): Plan {
  const halves: readonly PlanLead[] = (['+j', '-j', '+a', '-a'] as const).map((which, i) => ({
    id: `W${greenhouse.leads.length + 1 + i}`,
    from: rail(which, 31),
    to: rail(which, 34),
    colour: which.startsWith('+') ? 'red' : 'black',
  }));
  return {
    ...greenhouse,
    boards: greenhouse.boards.map((b) => ({ ...b, splitRails: true })),
    leads: [...greenhouse.leads, ...halves],
  };
}

const split = splitGreenhouse();
const lastIndex = split.leads.length - 1;

/** The bytes of addresses 000 to 00F with another one at `address`. */
function withByte(address: number, byte: string): Plan['memories'][string] {
  const image = greenhouse.memories.U1 ?? {};
  const first = image['000'] ?? '';
  return { ...image, '000': first.slice(0, 2 * address) + byte + first.slice(2 * address + 2) };
}

export const MISTAKES: readonly Mistake[] = [
  {
    plan: 'greenhouse-dark-mister',
    title: 'Greenhouse watch, the mister lamp stays dark',
    lamp: 'L2',
    sensors: ['hot'],
    cause: 'the lamp is in the wrong way round',
    whole: greenhouse,
    mend: mendPart('L2', { at: partOf('L2').to, to: partOf('L2').at }),
  },
  {
    plan: 'greenhouse-dim-grow-light',
    title: 'Greenhouse watch, the grow light lamp is dim',
    lamp: 'L5',
    sensors: ['dark'],
    cause: 'the resistor is 3.3 kΩ instead of 330 Ω: its third ring is red, not brown',
    whole: greenhouse,
    mend: mendPart('R5', { params: { ohms: 3300 } }),
  },
  {
    plan: 'greenhouse-dark-heater',
    title: 'Greenhouse watch, the heater lamp stays dark',
    lamp: 'L3',
    sensors: ['dark'],
    cause: 'bit 3 of the byte at address 004 is stored as 0',
    whole: greenhouse,
    mend: { op: 'set-memory', id: 'U1', before: withByte(4, '20'), after: greenhouse.memories.U1 },
  },
  {
    plan: 'greenhouse-nothing-lights',
    title: 'Greenhouse watch, nothing lights',
    lamp: 'L7',
    sensors: [],
    cause: 'the lead from /OE goes to + instead of −, so the memory is off the bus',
    whole: greenhouse,
    mend: mendLead('j17', { to: rail('+j', 17) }),
  },
  {
    plan: 'greenhouse-dark-fan',
    title: 'Greenhouse watch, the fan lamp stays dark in the wind',
    lamp: 'L1',
    sensors: ['hot', 'windy'],
    cause: 'the lead to A3 starts one row off, at the raining switch, so A3 reads low',
    whole: greenhouse,
    mend: mendLead('b6', { from: 'b7' }),
  },
  {
    plan: 'greenhouse-dark-vent',
    title: 'Greenhouse watch, the vent lamp stays dark',
    lamp: 'L0',
    sensors: ['hot'],
    cause: 'the lead that joins the halves of the lower minus rail is missing',
    whole: split,
    mend: { op: 'add-lead', index: lastIndex, lead: pick(split.leads, (l) => l.from === rail('-a', 31)) },
  },
];
