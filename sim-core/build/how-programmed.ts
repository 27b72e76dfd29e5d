/** How the bytes get into a kind of memory: by hand on the bench, in a programmer, once and never again, or when it is made. */
import type { ChipSpec, PartKind } from '../parts/part.ts';

/** 'volatile': it loses what it holds without supply. */
export type Programmed = 'by hand' | 'volatile' | 'ultraviolet' | 'once' | 'when made';

/** spec: of a memory. */
export function howProgrammed({ figures }: Pick<PartKind, 'figures'>, spec: ChipSpec): Programmed {
  if (spec.word?.forgets) return 'volatile';
  if (spec.inputs.includes('/WE')) return 'by hand';
  // a window has a dose, and what is programmed by more than its supply says how much that may be
  if (figures.some((f) => f.unit === 'W·s/cm²')) return 'ultraviolet';
  return Object.keys(spec.mostVolts ?? {}).length > 0 ? 'once' : 'when made';
}

/** memory: 'U1'; file: the name of its image. */
export function sayProgramming(how: Programmed, memory: string, file: string): string {
  switch (how) {
    case 'by hand':
      return `Program ${file} into ${memory} in a device programmer, verify it, then fit the chip.`;
    case 'volatile':
      return `${memory} is volatile: it cannot be programmed before it is fitted, and loses its bytes with the supply. Write them on the bench each time.`;
    case 'ultraviolet':
      return `Erase ${memory} under ultraviolet light until every byte reads FF, program ${file} in a device programmer at the voltage that its data sheet names, verify it, and cover the window with an opaque label.`;
    case 'once':
      return `${memory} can be programmed only once: a blown link stays blown. Check the image against the table first, then program ${file} in a device programmer that knows the part, and verify it.`;
    case 'when made':
      return `${memory} gets its bytes when it is made: send ${file} to the maker. It cannot be changed afterwards.`;
  }
}

/** Why a hand cannot write it on this bench, and what to do instead. */
export function sayNotByHand(how: Programmed, memory: string): string {
  if (how === 'by hand' || how === 'volatile')
    return `${memory} has no write button of its own on this bench, so it cannot be written by hand. Load its image in one step, or wire a button to /WE.`;
  const why = {
    ultraviolet: 'it is programmed in a device programmer and erased by ultraviolet light',
    once: 'it is programmed once, in a device programmer',
    'when made': 'it gets its bytes when it is made',
  }[how];
  return `${memory} cannot be written by hand: ${why}. Load its image in one step.`;
}
