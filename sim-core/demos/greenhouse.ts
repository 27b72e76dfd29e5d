/** The greenhouse watch with its memory programmed: turn the supply on and the LEDs follow the sensors. */

import type { Plan } from '../../shared/plan.ts';
import { hexByte } from '../units/hex.ts';
import { layWire, newDraft, rail } from './draft.ts';
import { SENSORS, TABLE } from './greenhouse-rules.ts';
import { buffer, leds, memory, rowOfPin, sensors, supplyRails, wanted } from './greenhouse-sections.ts';

const digits = (bytes: readonly number[]): string => bytes.map(hexByte).join('');

export function composeGreenhouse(): Plan {
  const plan = newDraft();
  supplyRails(plan, [0, -6.6]);
  sensors(plan);
  memory(plan);
  layWire(plan, rail('+j', rowOfPin('/WE')), `j${rowOfPin('/WE')}`, 'orange');
  layWire(plan, `j${rowOfPin('/OE')}`, rail('-j', rowOfPin('/OE')), 'violet');
  buffer(plan);
  leds(plan);
  return {
    format: 'lampwright-plan',
    version: 2,
    title: 'Greenhouse watch',
    boards: [{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false }],
    parts: plan.parts,
    wires: plan.wires,
    memories: { U1: { '000': digits(TABLE.slice(0, 16)), '010': digits(TABLE.slice(16)) } },
    wanted: wanted(),
    meters: [],
    notes: [
      'Five sensors of a greenhouse, here five switches, choose one of 32 bytes in the memory; its eight bits say which LEDs light. The buffer gives the LEDs the current that the memory does not promise.',
      'Switch the supply on, then set a switch: closed means yes. The rules are beside the table, and each byte of the memory follows them.',
    ],
    switches: { PS1: [false], S1: SENSORS.map(() => false) },
  };
}
