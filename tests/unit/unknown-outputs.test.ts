/** An input that hears an output of which nobody can tell whether it drives. */
import { describe, expect, test } from 'vitest';
import { MEMORY, start } from '../support/bench.ts';

describe('a listener', () => {
  /** U1 with its /OE in the air and this byte at every address it may read; its D0 goes to the A0 of U2, held by 10 kΩ, straight or through 1 kΩ. */
  const listens = (byte: string, held: '+a' | '-a', through: 'wire' | 'resistor') => {
    const sim = start(`
      ${MEMORY}
      wire V1 black from a18 to -a17
      wire V0 black from a19 to -a18
      wire WE red from i15 to +j14
      memory U1 0 ${byte}
      board-63 B2
      wire K1 red from +j20 to B2:+a50
      wire K2 black from -j20 to B2:-a50
      static-ram-2kx8 U2 at B2:d12
      wire V red from B2:j12 to B2:+a40
      wire G black from B2:a23 to B2:-a40
      ${through} X${through === 'resistor' ? ' 1k' : ''} from a20 to B2:a19
      resistor RH 10k from B2:b19 to B2:${held}30`);
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
