/** A pulse that was to leave a bit at 1 which is 0 already: only erasing brings it back. */

import { say } from '../../../sentence/wording.ts';
import { DATA_5A, memoryBench, type RuleExamples } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';
import { casesOf, type WriteData, writeData } from '../../write-log.ts';

export const notErased = defineRule<WriteData>({
  code: 'memory/not-erased',
  severity: 'fault',
  reads: 'log',
  look: ({ events }) => casesOf(events, 'not-erased').map(writeData),
  message: ({ memory, byte, address }) =>
    say`${memory}: byte ${byte} needs a 1 at address ${address} where a 0 is stored, and a pulse only turns 1 into 0. Erase it under UV light, then program it.`,
});

/** A UV EPROM with 25 V on VPP and /OE high; the button S9 pulses /CE. */
const bench = (stored: string) => `${memoryBench(DATA_5A, 'WCE').replace('eeprom-2kx8 U1', 'uv-eprom-2kx8 U1')}
  memory U1 000 ${stored}
  wire WOE from j16 to +j11
  bench-supply PS2 25
  switch PS2 set 1
  wire X1 from PS2.- to -j40
  wire X2 from PS2.+ to j15
  resistor RCE 10k from j18 to -j4
  push-button S9 at e40
  wire WS from j40 to i18
  wire WT from j42 to +j16`;
const script = [[{ do: 'press', part: 'S9' }], [{ do: 'release', part: 'S9' }]] as const;

export const notErasedExamples = (): RuleExamples => ({
  bad: { points: 'U1', bench: bench('00'), script },
  good: { bench: bench('FF'), script },
});
