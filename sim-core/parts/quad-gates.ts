/** Quad two-input gates: NAND, NOR, AND, OR and XOR, four to a package, so that a table can be built in gates beside its memory. */

import type { ByFamily } from './figures/families.ts';
import { many } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

/** The usual pin-outs, as data sheets of the quad NAND (December 1990) and the quad NOR print them: the NOR alone has its outputs first. */
const INPUTS_FIRST = '1A 1B 1Y 2A 2B 2Y GND 3Y 3A 3B 4Y 4A 4B VCC';
const OUTPUTS_FIRST = '1Y 1A 1B 2Y 2A 2B GND 3A 3B 3Y 4A 4B 4Y VCC';

/** is: of the bits at the two inputs. delay: see LogicChip. amps: supply current of LS, most, from memory [A]. */
const quad = (
  name: string,
  is: (a: number, b: number) => number,
  delay: ByFamily,
  amps: number,
  { pins = INPUTS_FIRST, synonyms = [] }: { readonly pins?: string; readonly synonyms?: readonly string[] } = {},
) =>
  logicPart({
    id: `quad-${name.toLowerCase()}`,
    title: `Quad 2-input ${name} gate`,
    synonyms: [`${name} gate`, `${name} gates`, 'quad gate', 'two-input', ...synonyms],
    pins,
    strength: 'standard',
    rule: { outputs: many(4, (i) => ({ name: `${i + 1}Y`, of: [`${i + 1}A`, `${i + 1}B`], is })) },
    delay,
    supplyCurrent: { HC: 20e-6, HCT: 20e-6, LS: amps },
  });

export const quadNand = quad('NAND', (a, b) => 1 - (a & b), { HC: 7e-9, HCT: 10e-9, LS: 10e-9 }, 4.4e-3);
export const quadNor = quad('NOR', (a, b) => 1 - (a | b), { HC: 7e-9, HCT: 9e-9, LS: 10e-9 }, 5.4e-3, { pins: OUTPUTS_FIRST });
export const quadAnd = quad('AND', (a, b) => a & b, { HC: 7e-9, HCT: 11e-9, LS: 10e-9 }, 8.8e-3);
export const quadOr = quad('OR', (a, b) => a | b, { HC: 6e-9, HCT: 9e-9, LS: 14e-9 }, 9.8e-3);
export const quadXor = quad('XOR', (a, b) => a ^ b, { HC: 11e-9, HCT: 14e-9, LS: 12e-9 }, 10e-3, {
  synonyms: ['exclusive OR', 'EXOR', 'parity', 'comparator'],
});
