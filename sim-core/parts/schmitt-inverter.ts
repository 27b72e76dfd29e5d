/** Hex inverter with Schmitt inputs: slow edges come out clean, since each input keeps its level between its two thresholds. */

import { HIGH, LOW, many } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

export const schmittInverter = logicPart({
  id: 'schmitt-inverter',
  title: 'Hex inverter, Schmitt inputs',
  synonyms: ['NOT gate', 'inverter gate', 'hex inverter'],
  // the usual hex inverter's pin-out: SOURCES.md S1
  pins: '1A 1Y 2A 2Y 3A 3Y GND 4Y 4A 5Y 5A 6Y 6A VCC',
  strength: 'standard',
  schmitt: true,
  rule: { outputs: many(6, (i) => ({ name: `${i + 1}Y`, of: [`${i + 1}A`], is: (a: number) => (a ? LOW : HIGH) })) },
  delay: { HC: 12e-9, HCT: 16e-9, LS: 15e-9 },
  supplyCurrent: { HC: 80e-6, HCT: 80e-6, LS: 21e-3 },
});
