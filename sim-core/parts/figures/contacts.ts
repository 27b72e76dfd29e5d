/** What all mechanical contacts share: their resistances and how long they bounce. */
import type { Contact } from '../part.ts';

/** 50 mΩ new, 100 mΩ after life, insulation at least 100 MΩ: SOURCES.md S53, S54. A clean one has 10 GΩ and more, from memory. */
export const dipContact: Contact = { on: 0.1, off: 10e9, leastOff: 100e6, momentary: false, bounce: 1.557e-3 };

/** A 6 × 6 mm tactile switch; 16 of 18 switches bounced for 1.557 ms on average: SOURCES.md S50. Resistances as above, from memory. */
export const buttonContact: Contact = { on: 0.1, off: 10e9, leastOff: 100e6, momentary: true, bounce: 1.557e-3 };
