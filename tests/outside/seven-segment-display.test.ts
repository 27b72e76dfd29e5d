/** Seven-segment digits on the bench against a published function table, and the usual hexadecimal patterns. */
import { describe, expect, test } from 'vitest';
import { displayReadings } from '../../sim-core/index.ts';
import { HEX_DIGITS, SEGMENTS } from '../../sim-core/logic/codes.ts';
import { MEMORY, start } from '../support/bench.ts';

/**
 * Function table of the BCD to 7-segment decoder/drivers of the 48 kind, outputs a to g, inputs 0 to 9 (SOURCES.md S36). Its 6 has no top and its 9 no
 * bottom stroke; the usual patterns have both.
 */
const PUBLISHED = ['1111110', '0110000', '1101101', '1111001', '0110011', '1011011', '0011111', '1110000', '1111111', '1110011'];
const published = (n: number) => [...PUBLISHED[n]!].reduce((bits, on, i) => bits | (on === '1' ? 1 << i : 0), 0);

test('the digits are those of the published table, but for the tails of 6 and 9', () => {
  for (let n = 0; n <= 9; n++) {
    const tail = n === 6 ? 1 << SEGMENTS.indexOf('a') : n === 9 ? 1 << SEGMENTS.indexOf('d') : 0;
    expect(HEX_DIGITS[n], String(n)).toBe(published(n) | tail);
  }
});

/** D0 … D6 of the memory at d12 on segments a … g of a digit at e40, each through 330 Ω; A0 … A3 on switches. */
function digitBench(polarity: 'anode' | 'cathode'): string {
  const dataRow = ['a20', 'a21', 'a22', 'j23', 'j22', 'j21', 'j20'];
  // 0.56 inch digit, pins e d COM c DP / b a COM f g (SOURCES.md S13); at d40 pins 1 … 5 are d40 … d44, pins 6 … 10 are h44 … h40
  const pin: Record<string, string> = { e: '40a', d: '41a', c: '43a', b: '44f', a: '43f', f: '41f', g: '40f' };
  const resistors = SEGMENTS.map((s, i) => {
    const row = 30 + i;
    const [, n, side] = /^(\d+)(.)$/.exec(pin[s]!)!;
    return `
      wire L${i} green from ${dataRow[i]} to ${dataRow[i]![0]}${row}
      resistor R${i} 330 from ${dataRow[i]![0] === 'a' ? 'b' : 'i'}${row} to ${side === 'a' ? 'a' : 'j'}${n}`;
  }).join('');
  const code = (v: number) => (polarity === 'anode' ? ~v & 0x7f : v).toString(16).toUpperCase().padStart(2, '0');
  const switches = [0, 1, 2, 3]
    .map(
      (bit) => `
      wire S${bit} red from +j${30 + bit} to j${2 + bit}
      wire T${bit} yellow from b${2 + bit} to b${19 - bit}
      resistor Q${bit} 10k from a${2 + bit} to -a${1 + bit + 20}`,
    )
    .join('');
  return `${MEMORY.replace(/wire P1[12] .*/g, '')}
    wire OE black from i16 to -j16
    wire WE red from i15 to +j14
    seven-segment-common-${polarity} DS1 at d40
    wire C9 red from a42 to ${polarity === 'anode' ? '+a35' : '-a35'}
    ${polarity === 'anode' ? 'wire C8 red from +j5 to +a5' : ''}
    dip-switch SW at e2 with poles 4
    ${switches}${resistors}
    memory U1 000 ${HEX_DIGITS.map(code).join('')}`;
}

describe.each(['cathode', 'anode'] as const)('a digit with common %s on a memory', (polarity) => {
  test('shows 0 to 9 and A to F, one after the other', () => {
    const sim = start(digitBench(polarity), { still: true });
    let shown = '';
    for (let n = 0; n < 16; n++) {
      for (let bit = 0; bit < 4; bit++) sim.act({ do: 'set', part: 'SW', pole: bit, closed: ((n >> bit) & 1) === 1 });
      shown += displayReadings(sim.readings())[0]!.character ?? '?';
    }
    expect(shown).toBe('0123456789AbCdEF');
  });
});
