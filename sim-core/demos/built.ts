/** Demonstrations that the plan builder makes of their tables: which memory, what it drives, and a sentence for the menu. */

import type { Plan } from '../../shared/plan.ts';
import { draftPlan } from '../build/build-plan.ts';
import { buildPlan } from '../build/proven-build.ts';
import { type Choices, requestOfTable } from '../build/request-of-table.ts';
import { tableOfRules } from '../logic/rules-table.ts';
import { addingMachine, brailleTutor, ferryRamp, ticketCounter, windVane } from './tables/catalogue.ts';
import type { DemoTable } from './tables/table.ts';

interface Built {
  readonly table: DemoTable;
  readonly choices: Pick<Choices, 'memory' | 'byHand' | 'show' | 'buffered' | 'colour'>;
}

/** Current wanted in an LED [A]. */
const AMPS = 5e-3;
const MEMORY = 'eeprom-2kx8';

export const BUILT: readonly Built[] = [
  { table: brailleTutor, choices: { memory: MEMORY, byHand: true, show: 'leds', buffered: true, colour: 'amber' } },
  { table: windVane, choices: { memory: MEMORY, byHand: true, show: 'leds', buffered: true, colour: 'green' } },
  { table: ticketCounter, choices: { memory: MEMORY, byHand: false, show: 'digit', buffered: true } },
  { table: addingMachine, choices: { memory: MEMORY, byHand: false, show: 'bar', buffered: true } },
  { table: ferryRamp, choices: { memory: MEMORY, byHand: false, show: 'leds', buffered: true } },
];

const HOW = 'Switch the supply on and set the inputs. The memory already holds the image.';
const AGAIN = ' To write it yourself, byte by byte, choose an erased memory on the Build page and follow its programming card.';

export function composeBuilt({ table, choices }: Built): Plan {
  const truth = tableOfRules(table.inputs, table.outputs, table.rules);
  if (!truth.ok) throw new Error(`${table.id}: ${truth.failure.says}`);
  const request = requestOfTable(truth.value, {
    ...choices,
    title: table.title,
    amps: AMPS,
    expressions: table.rules.split('\n'),
    ...(table.arrangement ? { arrangement: table.arrangement } : {}),
    ...(table.activeLow ? { activeLow: table.activeLow } : {}),
  });
  const built = buildPlan(request);
  // what is written by hand here holds its bytes already
  const draft = draftPlan(request);
  if (!built.ok || !draft.ok) throw new Error(`${table.id} cannot be built`);
  // the document is short: what is built from a table on the page is kept as meant
  const { meant: _, ...bench } = built.value;
  return { ...bench, memories: draft.value.loaded.memories, notes: [table.description, `${HOW}${choices.byHand ? AGAIN : ''}`] };
}
