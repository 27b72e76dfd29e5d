/** What each option of the plan builder builds, in one line, and the result of a byte written from the programming card. */
import type { WriteFault, WriteReport } from '../parts/part.ts';
import { partlyHex, partlyHexAddress } from '../units/hex.ts';
import { siFormat } from '../units/quantity.ts';

/** One line for each choice of the builder: what it leads to. */
export const CHOICE_SAYS = {
  loaded: 'The memory already holds the image, as if a programmer had written it; the bench has only the input switches.',
  byHand:
    'The memory is blank. The bench gets address, data and enable switches and a write button, and a programming card lists what to set.',
  leds: 'One LED per output, each with its own resistor and label.',
  digit: 'The outputs drive segments a to g and the decimal point of a 7-segment display; two displays for more than eight outputs.',
  loads: 'A Darlington array switches loads to ground: high-current LEDs that stand in for relays or motors. The image is loaded.',
  bar: 'Ten LEDs in one package, all the same colour: compact and quick to wire.',
  row: 'Side by side along the board, lowest output on the left.',
  cell: 'Two columns of three, numbered down the left and then down the right, like the dots of a Braille cell.',
  ring: 'Eight in a ring, clockwise from the top, like the points of a compass.',
  buffered: 'A buffer drives the LEDs: their current is guaranteed, and they do not load the data pins during a write.',
  straight:
    'The memory drives the LEDs directly: one chip fewer, but typical brightness only; no memory data sheet guarantees the current.',
  activeLow: 'A 1 in the table is a low level; the LED is connected to + and lights when the pin pulls it low.',
} as const;

/** leds: how many may be lit at once. amps: wanted in each. */
export const sayBrightness = (amps: number, leds: number): string =>
  `${siFormat(amps, 'A')} per LED${leds > 1 ? `, ${siFormat(amps * leds, 'A')} if all ${leds} are lit` : ''}; the resistors are chosen for it, and what the chips cannot bear is refused.`;

const FAULTS: Readonly<Record<WriteFault['fault'], string>> = {
  'pulse-short': 'the pulse was too short',
  'pulse-long': 'the pulse was too long',
  'address-setup': 'the address changed too late before the pulse',
  'address-hold': 'the address changed too soon',
  'data-setup': 'the data changed too late before the pulse ended',
  'data-hold': 'the data changed too soon after the pulse',
  'output-enable-setup': '/OE went high too late before the pulse',
  'output-enable-hold': '/OE went low too soon after the pulse',
  'output-enable-low': '/OE was low: close its switch first',
  'output-enable-unknown': '/OE was undefined (X)',
  busy: 'the memory was still storing the byte before',
  'address-unknown': 'an address pin was undefined (X)',
  'data-unknown': 'a data pin was undefined (X)',
  'never-guaranteed-low': '/WE never reached a guaranteed low level',
  'supply-low': 'the supply was too low',
  'just-powered': 'the supply had just come on: wait a moment and press again',
  protected: 'software protection is on',
  'other-page': 'the byte belongs to a different page from those being loaded',
  'not-erased': 'a bit would have to change back to 1, which only erasing does',
  'no-program-voltage': 'there was no programming voltage',
  worn: 'the cell is worn out',
};

/** What a press wrote, compared with the step of the card; undefined: exactly that. */
export function sayWritten(report: WriteReport, step: { readonly address: number; readonly byte: number }): string | undefined {
  const why = report.faults.map((f) => FAULTS[f.fault]).join('; ');
  const because = why === '' ? '' : `: ${why}`;
  const at = partlyHexAddress(report.address);
  const data = partlyHex(report.data, 2);
  if (report.outcome === 'ignored') return `Nothing was stored${because}.`;
  const asked = `${partlyHex({ value: step.byte, unknown: 0 }, 2)} at ${partlyHexAddress({ ...report.address, value: step.address, unknown: 0 })}`;
  if (report.address.unknown !== 0 || report.address.value !== step.address)
    return `The byte went to address ${at}, but the card asks for ${asked}. Correct the address switches and press again; ${at} now holds ${data}.`;
  if (report.data.unknown !== 0 || report.data.value !== step.byte)
    return `${data} was written, but the card asks for ${asked}. Correct the data switches and press again.`;
  return report.outcome === 'uncertain' ? `${asked} is uncertain${because}. Press the button again.` : undefined;
}
