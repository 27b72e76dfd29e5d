/** The one mistake in each broken greenhouse: what was done wrong, which LED shows it at which setting, and the change that undoes it. */

import type { Plan, PlanPart, PlanWire } from '../../shared/plan.ts';
import type { Change } from '../document/changes.ts';
import { rail } from './draft.ts';
import { composeGreenhouse } from './greenhouse.ts';
import type { Sensor } from './greenhouse-rules.ts';

export interface Mistake {
  /** the broken plan's id */
  readonly plan: string;
  readonly title: string;
  /** the LED to ask about, and the sensors that are on: by the rules it should be lit */
  readonly led: string;
  readonly sensors: readonly Sensor[];
  readonly cause: string;
  /** the bench before the mistake was made */
  readonly whole: Plan;
  readonly fix: Change;
}

const greenhouse = composeGreenhouse();

function pick<T>(list: readonly T[], fits: (thing: T) => boolean): T {
  const found = list.find(fits);
  if (!found) throw new Error('the greenhouse has changed: a thing that a mistake is about is gone');
  return found;
}
const partOf = (id: string): PlanPart => pick(greenhouse.parts, (p) => p.id === id);
const wireAt = (hole: string): PlanWire => pick(greenhouse.wires, (l) => l.from === hole || l.to === hole);

/** A change that gives a part or a wire back what it should have had. */
const fixPart = (id: string, wrong: Partial<PlanPart>): Change => ({
  op: 'replace',
  list: 'parts',
  before: { ...partOf(id), ...wrong },
  after: partOf(id),
});
const fixWire = (hole: string, wrong: Partial<PlanWire>): Change => ({
  op: 'replace',
  list: 'wires',
  before: { ...wireAt(hole), ...wrong },
  after: wireAt(hole),
});

/** The same bench on a board whose rails are cut in the middle: four wires join the halves. */
function splitGreenhouse(): Plan {
  const halves: readonly PlanWire[] = (['+j', '-j', '+a', '-a'] as const).map((which, i) => ({
    id: `W${greenhouse.wires.length + 1 + i}`,
    from: rail(which, 31),
    to: rail(which, 34),
    colour: which.startsWith('+') ? 'red' : 'black',
  }));
  return {
    ...greenhouse,
    boards: greenhouse.boards.map((b) => ({ ...b, splitRails: true })),
    wires: [...greenhouse.wires, ...halves],
  };
}

const split = splitGreenhouse();
const lastIndex = split.wires.length - 1;

/** The bytes of addresses 000 to 00F with another one at `address`. */
function withByte(address: number, byte: string): Plan['memories'][string] {
  const image = greenhouse.memories.U1 ?? {};
  const first = image['000'] ?? '';
  return { ...image, '000': first.slice(0, 2 * address) + byte + first.slice(2 * address + 2) };
}

export const MISTAKES: readonly Mistake[] = [
  {
    plan: 'greenhouse-dark-mister',
    title: 'Greenhouse watch, the mister LED stays dark',
    led: 'LED3',
    sensors: ['hot'],
    cause: 'the LED is reversed',
    whole: greenhouse,
    fix: fixPart('LED3', { at: partOf('LED3').to, to: partOf('LED3').at }),
  },
  {
    plan: 'greenhouse-dim-grow-light',
    title: 'Greenhouse watch, the grow light LED is dim',
    led: 'LED6',
    sensors: ['dark'],
    cause: 'the resistor is 3.3 kΩ instead of 330 Ω: its third band is red, not brown',
    whole: greenhouse,
    fix: fixPart('R6', { params: { ohms: 3300 } }),
  },
  {
    plan: 'greenhouse-dark-heater',
    title: 'Greenhouse watch, the heater LED stays dark',
    led: 'LED4',
    sensors: ['dark'],
    cause: 'bit 3 of the byte at address 0x004 is stored as 0',
    whole: greenhouse,
    fix: { op: 'set', field: 'memories', id: 'U1', before: withByte(4, '20'), after: greenhouse.memories.U1 },
  },
  {
    plan: 'greenhouse-nothing-lights',
    title: 'Greenhouse watch, nothing lights',
    led: 'LED8',
    sensors: [],
    cause: 'the wire from the enables of the buffer goes to + instead of −, so its outputs are high-impedance (Z)',
    whole: greenhouse,
    fix: fixWire('j27', { to: rail('+j', 28) }),
  },
  {
    plan: 'greenhouse-dark-fan',
    title: 'Greenhouse watch, the fan LED stays dark in the wind',
    led: 'LED2',
    sensors: ['hot', 'windy'],
    cause: 'the wire to A3 starts one row off, at the raining switch, so A3 reads low',
    whole: greenhouse,
    fix: fixWire('b6', { from: 'b7' }),
  },
  {
    plan: 'greenhouse-dark-vent',
    title: 'Greenhouse watch, the vent LED stays dark',
    led: 'LED1',
    sensors: ['hot'],
    cause: 'the wire that connects the halves of the bottom − rail is missing',
    whole: split,
    fix: { op: 'insert', list: 'wires', index: lastIndex, item: pick(split.wires, (l) => l.from === rail('-a', 31)) },
  },
];
