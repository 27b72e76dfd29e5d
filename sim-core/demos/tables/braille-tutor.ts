/** A letter on five switches, its Braille cell on six LEDs. */
import { counted, type DemoTable } from './table.ts';

export const brailleTutor: DemoTable = {
  id: 'braille-tutor',
  title: 'Braille tutor',
  description:
    'Set the number of a letter, A is 1 and Z is 26, and six LEDs show its Braille cell: dots 1 2 3 down the left, 4 5 6 down the right. 0 is a space.',
  inputs: counted('L', 5),
  outputs: ['dot1', 'dot2', 'dot3', 'dot4', 'dot5', 'dot6'],
  arrangement: 'cell',
  // dot n is bit n − 1, as in the Unicode block Braille Patterns
  rules: `letter = L4..L0
{dot6, dot5, dot4, dot3, dot2, dot1} = pick(letter, 0, 0x01, 0x03, 0x09, 0x19, 0x11, 0x0B, 0x1B, 0x13, 0x0A, 0x1A, 0x05, 0x07, 0x0D, 0x1D, 0x15, 0x0F, 0x1F, 0x17, 0x0E, 0x1E, 0x25, 0x27, 0x3A, 0x2D, 0x3D, 0x35)
dontcare when letter > 26`,
};
