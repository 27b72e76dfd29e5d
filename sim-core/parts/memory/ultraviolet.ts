/** Ultraviolet light on a window: the dose that erases, and how strong light of several kinds is. */
import type { Figure } from '../part.ts';

/** Dose that erases for certain [W·s/cm²] and an eraser's strength at one inch [W/cm²]: SOURCES.md S26, S27. */
export const DOSE = 15;
/** Irradiance of a usual eraser at the window [W/cm²]. */
export const ERASER = 12e-3;
const DAY = 86_400;

/** What the sheet says of light. */
export const lightFigures: readonly Figure[] = [
  { name: 'dose that erases, 253.7 nm', value: DOSE, unit: 'W·s/cm²', source: 'SOURCES.md S26; some parts need 30' },
  { name: 'an eraser at one inch', value: ERASER, unit: 'W/cm²', source: 'SOURCES.md S26, S27' },
  { name: 'time in such an eraser', value: DOSE / ERASER, unit: 's', source: 'derived: 15 W·s/cm² at 12 mW/cm²' },
  {
    name: 'direct sun, as strong as',
    value: DOSE / (7 * DAY),
    unit: 'W/cm²',
    source: 'derived: SOURCES.md S28, erased in about one week; cover the window with an opaque label',
  },
  {
    name: 'a room’s fluorescent light, as strong as',
    value: DOSE / (3 * 365.25 * DAY),
    unit: 'W/cm²',
    source: 'derived: SOURCES.md S28, erased in about three years',
  },
  {
    name: 'on eyes or skin in eight hours, most (never look at the LED: injury is not felt, and comes later)',
    value: 6e-3,
    unit: 'W·s/cm²',
    source: 'SOURCES.md S98, S99; reached in half a second in the eraser above',
  },
];
