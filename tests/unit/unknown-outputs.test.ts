/** An input that hears an output of which nobody can tell whether it drives. */
import { describe, expect, test } from 'vitest';
import { MEMORY, start } from '../support/bench.ts';

describe('a listener', () => {
  /** U1 with its /OE in the air and this byte at every address it may read; its D0 goes to the A0 of U2, held by 10 kΩ, straight or through 1 kΩ. */
  const listens = (byte: string, held: '+a' | '-a', through: 'wire' | 'resistor') => {
    const sim = start(`
      ${MEMORY}
      V1 wire a18 -a17 black
      V0 wire a19 -a18 black
      WE wire i15 +j14 red
      U1 memory 0=${byte}
      B2 board-63
      K1 wire +j20 B2:+a50 red
      K2 wire -j20 B2:-a50 black
      U2 static-ram-2kx8 B2:d12
      V wire B2:j12 B2:+a40 red
      G wire B2:a23 B2:-a40 black
      X ${through} a20 B2:a19${through === 'resistor' ? ' ohms=1k' : ''}
      RH resistor B2:b19 B2:${held}30 ohms=10k`);
    const pins = sim.readings().chips.find((c) => c.part === 'U2')?.pins;
    return pins?.find((p) => p.pin === '8')?.level;
  };
  test.each([
    ['00', '-a', 'L'],
    ['01', '+a', 'H'],
    ['01', '-a', 'X'],
    ['00', '+a', 'X'],
  ] as const)('takes a level from %s held by %s where letting go and driving give the same: %s', (byte, held, level) => {
    expect(listens(byte, held, 'wire')).toBe(level);
    expect(listens(byte, held, 'resistor')).toBe(level);
  });
});
