/** All demonstration tables, in the order they are offered. */
import { addingMachine } from './adding-machine.ts';
import { brailleTutor } from './braille-tutor.ts';
import { crcNibble } from './crc-nibble.ts';
import { ferryRamp } from './ferry-ramp.ts';
import { hammingDecoder, hammingEncoder } from './hamming.ts';
import type { DemoTable } from './table.ts';
import { ticketCounter } from './ticket-counter.ts';
import { windVane } from './wind-vane.ts';

/** The demonstration tables, in the order in which they are offered. */
export const DEMO_TABLES: readonly DemoTable[] = [
  brailleTutor,
  windVane,
  ticketCounter,
  addingMachine,
  ferryRamp,
  hammingEncoder,
  hammingDecoder,
  crcNibble,
];
