/** What every EEPROM is as a part: how its pins read and write it, what it takes at pins far above the supply, and what it is good for. */
import type { Figure, PartKind } from '../part.ts';
import { type MemoryDataSheet, memoryPart } from './data-sheet.ts';
import { bytesBeyond, EepromChip, type EepromTraits } from './eeprom.ts';
import { ALIVE } from './read-path.ts';
import { writtenBefore } from './write-counts.ts';

/** 12.0 V ± 0.5 V on /OE or A9 reaches what is not reached otherwise [V]: SOURCES.md S2, S4. */
const FAR_ABOVE = 11.5;
const MARKS = [
  { pin: '/OE', volts: FAR_ABOVE },
  { pin: 'A9', volts: FAR_ABOVE },
] as const;
/** Places of those in ChipSpec.marks. */
export const [OE_MARK, A9_MARK] = [0, 1] as const;

export const mostHigh = (source: string): Figure => ({ name: '/OE and A9, absolute most', value: 13.5, unit: 'V', source });
export const endurance = (source: string): Figure => ({ name: 'writes of one cell, at least', value: 10_000, unit: '', source });

/** most: what /OE and A9 take. */
export function eepromPart(
  traits: EepromTraits,
  most: Figure,
  own: Pick<MemoryDataSheet, 'id' | 'title' | 'synonyms' | 'pins' | 'moreOutputs' | 'dc' | 'mostSupply' | 'figures'>,
): PartKind {
  return memoryPart({
    ...own,
    params: writtenBefore,
    toRead: { '/CE': 'L', '/OE': 'L', '/WE': 'H' },
    writable: true,
    beyond: bytesBeyond(traits),
    marks: MARKS,
    mostVolts: { '/OE': most, A9: most },
    supplyMarks: [ALIVE, traits.timing.writeInhibit],
    endurance: traits.endurance,
    start: (bench, { address, data, at }, contents, p) =>
      new EepromChip(
        bench,
        { address, data, chipEnable: at('/CE'), outputEnable: at('/OE'), writeEnable: at('/WE') },
        traits,
        contents,
        Number(p.written),
      ),
  });
}
