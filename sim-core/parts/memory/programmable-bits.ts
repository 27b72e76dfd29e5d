/** Bits that are programmed once by time under voltage, and perhaps erased by light: how far each one is on its way. */

import type { PlanCells } from '../../../shared/plan.ts';
import type { Partly } from '../../units/hex.ts';
import { makeRandom } from '../../units/random.ts';
import { chargesIn, chargesOf, FULL } from './cell-state.ts';
import { type Cells, eachAddress } from './cells.ts';

export interface ProgrammableBits {
  /** time has passed with these bits of this address under programming voltage [s]; unknown bits of `which` perhaps were */
  program(address: Partly, which: Partly, seconds: number, sure: boolean): void;
  /** light has fallen on all of them, as a part of the dose that erases them for certain */
  erase(part: number): void;
  /** those that their bytes do not tell, in plan form */
  charges(): PlanCells['charge'];
}

/** A bit whose charge is this near to one half of the full one reads one way or the other: SOURCES.md S32, "twinkling" bits; how near is from memory. */
const TWINKLES = 0.05;
/**
 * Parts of the full dose at which the quickest and the slowest bit change sides. The slowest is erased at the full dose; that the quickest
 * needs a fifth is SOURCES.md S30 read backwards: find the least time, and give five times that.
 */
const QUICKEST = 0.2;
const SLOWEST = 0.9;
/** Less than this part of the whole time under voltage changes nothing to speak of. */
const NOTHING = 1e-3;

/** programmed: what a programmed bit reads; full: time under voltage after which it does for certain [s]; name: decides which bits erase quickly. */
export function makeProgrammableBits(cells: Cells, programmed: 0 | 1, full: number, name: string, state?: PlanCells): ProgrammableBits {
  /** from 0 (erased) to FULL (programmed), by address and bit */
  const charge = chargesIn(cells, programmed, state);

  const show = (i: number, is: 'programmed' | 'erased' | 'uncertain') => {
    const a = i >> 3;
    const bit = 1 << (i & 7);
    const one = is !== 'uncertain' && (is === 'programmed') === (programmed === 1);
    cells.value[a] = one ? (cells.value[a] as number) | bit : (cells.value[a] as number) & ~bit;
    cells.unknown[a] = is === 'uncertain' ? (cells.unknown[a] as number) | bit : (cells.unknown[a] as number) & ~bit;
  };

  return {
    charges: () => chargesOf(charge, cells, programmed),
    program(address, which, seconds, sure) {
      if (seconds < NOTHING * full) return;
      eachAddress(address, (a) => {
        for (let bit = 0; bit < 8; bit++) {
          const i = 8 * a + bit;
          const here = (which.value >> bit) & 1;
          const perhaps = (which.unknown >> bit) & 1;
          const before = charge[i] as number;
          if ((!here && !perhaps) || before === FULL) continue;
          const certain = here && sure && !address.unknown;
          charge[i] = certain ? Math.min(FULL, before + Math.ceil((seconds * FULL) / full)) : before;
          show(i, charge[i] === FULL ? 'programmed' : 'uncertain');
        }
      });
    },
    erase(part) {
      let seed = 1;
      for (const c of name) seed = (Math.imul(seed, 31) + c.charCodeAt(0)) | 0;
      const random = makeRandom(seed);
      for (let i = 0; i < charge.length; i++) {
        const half = QUICKEST + (SLOWEST - QUICKEST) * random();
        const before = charge[i] as number;
        if (before === 0) continue;
        const after = Math.max(0, before - Math.round((FULL * 0.5 * part) / half));
        charge[i] = after;
        show(i, after >= FULL * (0.5 + TWINKLES) ? 'programmed' : after <= FULL * (0.5 - TWINKLES) ? 'erased' : 'uncertain');
      }
    },
  };
}
