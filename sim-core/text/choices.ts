/** What each choice of the plan builder wires to, in one line, and what came of a byte that was written from the card. */
import type { WriteFault, WriteReport } from '../parts/part.ts';
import { partlyHex, partlyHexAddress } from '../units/hex.ts';
import { siFormat } from '../units/quantity.ts';

export const CHOICE_SAYS = {
  loaded: 'The image is in the memory, as a real writer leaves it; only the input switches stand on the bench.',
  byHand: 'Nothing is written yet. Address, data and enable switches and a write button go on the bench, and a card says what to move.',
  leds: 'One LED an output, each with its own resistor and its name.',
  digit: 'The outputs are the segments a to g and the point of a digit; two digits where there are more than eight.',
  loads:
    'An array of Darlington switches pulls loads down that hang from plus: strong LEDs, in the place of relays or motors. The image is loaded.',
  bar: 'Ten LEDs in one package, all of one colour: few places, quickly wired.',
  row: 'Side by side along the board, the lowest output on the left.',
  cell: 'Two columns of three, counted down the left and then down the right, as the dots of a Braille cell.',
  ring: 'Eight in a ring, clockwise from the top, as the points of a compass.',
  buffered: 'A buffer drives the LEDs: their current is guaranteed, and no LED pulls at a data pin while it is written.',
  straight: 'Straight from the memory: one chip fewer, but lit only typically; no data sheet of a memory guarantees it.',
  activeLow: 'A 1 of the table is the low level; the LED hangs from plus and lights when the pin pulls it down.',
} as const;

/** LEDs: how many may be lit at once. amps: wanted in each. */
export const sayBrightness = (amps: number, leds: number): string =>
  `${siFormat(amps, 'A')} an LED${leds > 1 ? `, ${siFormat(amps * leds, 'A')} if all ${leds} are lit` : ''}; the resistors are computed for it, and limits of the chips come first.`;

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
  'output-enable-unknown': 'nobody can tell whether /OE was high',
  busy: 'the memory was still storing the byte before',
  'address-unknown': 'an address pin had no clear level',
  'data-unknown': 'a data pin had no clear level',
  'never-sure-low': '/WE never went surely low',
  'supply-low': 'the supply was too low',
  'just-powered': 'the supply had only just come on: wait a moment and press again',
  protected: 'the memory is protected by software',
  'other-page': 'the byte belongs to another page than those being loaded',
  'not-erased': 'a bit would have to go back to 1, which only erasing does',
  'no-program-voltage': 'there was no programming voltage',
  worn: 'the cell is worn out',
};

/** What a press wrote, against the step of the card; undefined: just that. */
export function sayWritten(report: WriteReport, step: { readonly address: number; readonly byte: number }): string | undefined {
  const why = report.faults.map((f) => FAULTS[f.fault]).join('; ');
  const because = why === '' ? '' : `: ${why}`;
  const at = partlyHexAddress(report.address);
  const data = partlyHex(report.data, 2);
  if (report.outcome === 'ignored') return `Nothing was stored${because}.`;
  const asked = `${partlyHex({ value: step.byte, unknown: 0 }, 2)} at ${partlyHexAddress({ ...report.address, value: step.address, unknown: 0 })}`;
  if (report.address.unknown !== 0 || report.address.value !== step.address)
    return `The byte went to address ${at}, the card asks for ${asked}. Set the address switches and press again; ${at} now holds ${data}.`;
  if (report.data.unknown !== 0 || report.data.value !== step.byte)
    return `${data} was written, the card asks for ${asked}. Set the data switches and press again.`;
  return report.outcome === 'uncertain' ? `${asked} is uncertain${because}. Press again.` : undefined;
}
