/** What holds a net at its voltage, in words. */
export const HELD = {
  driven: 'driven',
  weak: 'held by a resistor',
  air: 'floating',
  fight: 'fought over',
  unknown: 'not known',
} as const;
