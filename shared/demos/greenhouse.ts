/** The greenhouse watch with its memory programmed: turn the supply on and the lamps follow the sensors. */
import { hexByte } from '../../sim-core/units/hex.ts';
import type { Plan } from '../plan.ts';
import { lead, newDraft, rail } from './draft.ts';
import { SENSORS, TABLE } from './rules.ts';
import { lamps, memory, power, rowOf, sensors, wanted } from './sections.ts';

const digits = (bytes: readonly number[]): string => bytes.map(hexByte).join('');

export function composeGreenhouse(): Plan {
  const draft = newDraft();
  power(draft, [0, -6.6]);
  sensors(draft);
  memory(draft);
  lead(draft, rail('+j', rowOf('/WE')), `j${rowOf('/WE')}`, 'orange');
  lead(draft, `j${rowOf('/OE')}`, rail('-j', rowOf('/OE')), 'violet');
  lamps(draft);
  return {
    format: 'lampwright-plan',
    version: 1,
    title: 'Greenhouse watch',
    boards: [{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false }],
    parts: draft.parts,
    leads: draft.leads,
    memories: { U1: { '000': digits(TABLE.slice(0, 16)), '010': digits(TABLE.slice(16)) } },
    wanted: wanted(),
    meters: [],
    notes: [
      'Five sensors of a greenhouse, here five switches, choose one of 32 bytes in the memory; its eight bits say which lamps light.',
      'Turn the supply on, then set a switch: closed means yes. The rules are beside the table, and each byte of the memory follows them.',
    ],
    hands: { PS1: [false], S1: SENSORS.map(() => false) },
  };
}
