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
      L${i} wire ${dataRow[i]} ${dataRow[i]![0]}${row} green
      R${i} resistor ${dataRow[i]![0] === 'a' ? 'b' : 'i'}${row} ${side === 'a' ? 'a' : 'j'}${n} ohms=330`;
  }).join('');
  const code = (v: number) => (polarity === 'anode' ? ~v & 0x7f : v).toString(16).toUpperCase().padStart(2, '0');
  const switches = [0, 1, 2, 3]
    .map(
      (bit) => `
      S${bit} wire +j${30 + bit} j${2 + bit} red
      T${bit} wire b${2 + bit} b${19 - bit} yellow
      Q${bit} resistor a${2 + bit} -a${1 + bit + 20} ohms=10k`,
    )
    .join('');
  return `${MEMORY.replace(/P1[0-2] wire.*|P[89] wire.*/g, '').replace('P7 wire -a11 a12 black', 'P7 wire -a11 a12 black\nP8 wire -a12 a13 black\nP9 wire -a13 a14 black\nP10 wire -a14 a15 black')}
    OE wire i16 -j16 black
    WE wire i15 +j14 red
    DS1 seven-segment-common-${polarity} d40
    C9 wire a42 ${polarity === 'anode' ? '+a35' : '-a35'} red
    ${polarity === 'anode' ? 'C8 wire +j5 +a5 red' : ''}
    SW dip-switch e2 poles=4
    ${switches}${resistors}
    U1 memory 000=${HEX_DIGITS.map(code).join('')}`;
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
