/** The greenhouse watch with an erased memory and, on a second board, everything that writes it by hand, byte by byte. */
import type { Plan } from '../../shared/plan.ts';
import { type Draft, layWire, newDraft, put, rail, rail2, resistorFrom } from './draft.ts';
import { GREENHOUSE_RULES, SENSORS } from './greenhouse-rules.ts';
import { buffer, dataColour, freeAtData, leds, memory, rowOfPin, sensors, supplyRails, wanted } from './greenhouse-sections.ts';

/** Rows of the second board. */
const WRITE_ROW = 3;
const BUTTON = 6;
const OE_SWITCH = 12;
const DATA_SWITCHES = 17;

/**
 * The button pulls /WE low through 4.7 nF, and 270 Ω charges it again: a pulse that is short however long the button is held.
 * The discharge resistor empties the capacitor with a time constant of 10 ms: sooner than a hand presses again, and so late that after the longest bounce,
 * 6.2 ms, more than half the charge is left: /WE stays a high level.
 */
function writePulse(plan: Draft): void {
  put(plan, { ...resistorFrom('R9', `B2:b${WRITE_ROW}`, rail2('+a', WRITE_ROW + 1), 270), label: 'pull-up' });
  put(plan, { id: 'C3', kind: 'capacitor', at: `B2:d${WRITE_ROW}`, to: `B2:d${BUTTON}`, params: { farads: 4.7e-9 }, label: 'pulse' });
  put(plan, { ...resistorFrom('R10', `B2:c${WRITE_ROW}`, `B2:c${BUTTON}`, 2_200_000), label: 'discharge' });
  put(plan, { id: 'S4', kind: 'push-button', at: `B2:e${BUTTON}`, label: 'write' });
  layWire(plan, `B2:a${BUTTON + 2}`, rail2('-a', BUTTON + 2), 'black');
  layWire(plan, `B2:a${WRITE_ROW}`, `j${rowOfPin('/WE')}`, 'orange');
}

/** Closed, the switch takes /OE to + and the memory's data pins are high-impedance; open, 10 kΩ holds /OE low and the memory reads. */
function outputEnable(plan: Draft): void {
  put(plan, {
    id: 'S3',
    kind: 'dip-switch',
    at: `B2:e${OE_SWITCH}`,
    params: { poles: 1 },
    label: '/OE high to write',
    poleNames: ['/OE'],
  });
  put(plan, resistorFrom('R16', `B2:a${OE_SWITCH}`, rail2('-a', OE_SWITCH), 10_000));
  layWire(plan, rail2('+j', OE_SWITCH), `B2:j${OE_SWITCH}`, 'red');
  layWire(plan, `B2:c${OE_SWITCH}`, `j${rowOfPin('/OE')}`, 'violet');
}

/** One pole a data row: closed, 1 kΩ from + makes it high, too weakly to hurt an output that reads low; open, 10 kΩ holds it low. */
function data(plan: Draft): void {
  put(plan, { id: 'S2', kind: 'dip-switch', at: `B2:e${DATA_SWITCHES}`, params: { poles: GREENHOUSE_RULES.length }, label: 'data' });
  for (const [bit] of GREENHOUSE_RULES.entries()) {
    const row = DATA_SWITCHES + bit;
    // row 19 has no rail hole beside it, so the first three lean one row to the left
    const beside = bit < 3 ? row - 1 : row;
    put(plan, resistorFrom(`R${20 + bit}`, rail2('+j', beside), `B2:j${row}`, 1_000));
    put(plan, resistorFrom(`R${30 + bit}`, `B2:a${row}`, rail2('-a', beside), 10_000));
    layWire(plan, `B2:c${row}`, freeAtData(bit), dataColour(bit));
  }
}

/** The second board's rails are fed by the first one's. */
function joinBoards(plan: Draft): void {
  layWire(plan, rail('+j', 28), rail2('+a', 2), 'red');
  layWire(plan, rail('-j', 29), rail2('-a', 3), 'black');
  layWire(plan, rail2('+a', 26), rail2('+j', 26), 'red');
}

export function composeGreenhouseBlank(): Plan {
  const plan = newDraft();
  supplyRails(plan, [0, -10]);
  sensors(plan);
  memory(plan);
  buffer(plan);
  leds(plan);
  joinBoards(plan);
  writePulse(plan);
  outputEnable(plan);
  data(plan);
  return {
    format: 'lampwright-plan',
    version: 2,
    title: 'Greenhouse watch, to be written by hand',
    boards: [
      { id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false },
      { id: 'B2', kind: 'board-30', spot: [15, -22.4], splitRails: false },
    ],
    parts: plan.parts,
    wires: plan.wires,
    memories: {},
    wanted: wanted(),
    meters: [],
    notes: [
      'The memory is erased: every byte is FF, so all eight LEDs light once the supply is on.',
      'Each press makes one pulse: 270 Ω charges 4.7 nF in about a microsecond, and 2.2 MΩ discharges it too slowly for contact bounce to make a second one.',
      'To write a byte: close the /OE switch, set the address with the sensor switches and the byte with the data switches, then press and release the button. ' +
        'To read it back: open the /OE switch. After power-up the memory ignores writes for 5 ms.',
    ],
    switches: { PS1: [false], S1: SENSORS.map(() => false), S2: GREENHOUSE_RULES.map(() => false), S3: [false] },
  };
}
