/** Hex inverter, with plain inputs and with Schmitt inputs: slow edges come out of these clean, since each keeps its level between its two thresholds. */

import type { ByFamily } from './figures/families.ts';
import { HIGH, LOW, many } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

const inverter = (id: string, title: string, synonyms: readonly string[], delay: ByFamily, supplyCurrent: ByFamily, schmitt?: true) =>
  logicPart({
    id,
    title,
    synonyms: ['NOT gate', 'inverter gate', ...synonyms],
    // the usual hex inverter's pin-out: SOURCES.md S1
    pins: '1A 1Y 2A 2Y 3A 3Y GND 4Y 4A 5Y 5A 6Y 6A VCC',
    strength: 'standard',
    ...(schmitt ? { schmitt } : {}),
    rule: { outputs: many(6, (i) => ({ name: `${i + 1}Y`, of: [`${i + 1}A`], is: (a: number) => (a ? LOW : HIGH) })) },
    delay,
    supplyCurrent,
  });

export const hexInverter = inverter(
  'hex-inverter',
  'Hex inverter',
  ['six inverters'],
  { HC: 7e-9, HCT: 8e-9, LS: 10e-9 },
  { HC: 20e-6, HCT: 20e-6, LS: 6.6e-3 },
);
export const schmittInverter = inverter(
  'schmitt-inverter',
  'Hex inverter, Schmitt inputs',
  ['hex inverter', 'Schmitt trigger'],
  { HC: 12e-9, HCT: 16e-9, LS: 15e-9 },
  { HC: 80e-6, HCT: 80e-6, LS: 21e-3 },
  true,
);
