/** What all mechanical contacts share: their resistances and how long they bounce. */
import type { Bounce, Contact, Figure } from '../part.ts';

const bounce: Bounce = { mean: 1.557e-3, most: 6.2e-3 };
const BOUNCE_SOURCE = 'SOURCES.md S50, 16 switches';

/** 50 mΩ new, 100 mΩ after life, insulation at least 100 MΩ: SOURCES.md S53, S54. A clean one has 10 GΩ and more, from memory. */
export const dipContact: Contact = { on: 0.1, off: 10e9, leastOff: 100e6, momentary: false, bounce };

/** A 6 × 6 mm tactile switch. Resistances as above, from memory. */
export const buttonContact: Contact = { ...dipContact, momentary: true };

export const bounceFigures: readonly Figure[] = [
  { name: 'contact bounce, mean', value: bounce.mean, unit: 's', source: BOUNCE_SOURCE },
  { name: 'contact bounce, most', value: bounce.most, unit: 's', source: BOUNCE_SOURCE },
];
