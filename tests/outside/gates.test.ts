/** Gates and inverters against their published function tables and pin-outs, in every family that they are made in. */
import { describe, expect, test } from 'vitest';
import { partKind } from '../../sim-core/index.ts';
import { one, play, rowsOf } from '../support/function-tables.ts';
import { logicBench } from '../support/logic-bench.ts';

describe.each(['HC', 'HCT', 'LS'])('in family %s', (family) => {
  const bench = (id: string) => logicBench(id, { family });

  // SOURCES.md S1: inverting
  test.each(['hex-inverter', 'schmitt-inverter'])('%s', (id) => {
    const b = bench(id);
    for (let n = 1; n <= 6; n++) for (const row of rowsOf(one('#A | #Y\nL | H\nH | L', n))) play(b, row);
  });

  // function tables as the gates' data sheets print them, each of the four gates by itself
  test.each([
    ['quad-nand', 'L L | H\nL H | H\nH L | H\nH H | L'],
    ['quad-nor', 'L L | H\nL H | L\nH L | L\nH H | L'],
    ['quad-and', 'L L | L\nL H | L\nH L | L\nH H | H'],
    ['quad-or', 'L L | L\nL H | H\nH L | H\nH H | H'],
    ['quad-xor', 'L L | L\nL H | H\nH L | H\nH H | L'],
  ])('%s', (id, table) => {
    const b = bench(id);
    for (let n = 1; n <= 4; n++) for (const row of rowsOf(one(`#A #B | #Y\n${table}`, n))) play(b, row);
  });
});

// pins as data sheets of the gates list them: inputs 1, 2 and output 3, but for the NOR, whose outputs are 1, 4, 10 and 13; 7 ground, 14 plus
test.each([
  ['quad-nand', [1, 4, 9, 12], [2, 5, 10, 13], [3, 6, 8, 11]],
  ['quad-and', [1, 4, 9, 12], [2, 5, 10, 13], [3, 6, 8, 11]],
  ['quad-or', [1, 4, 9, 12], [2, 5, 10, 13], [3, 6, 8, 11]],
  ['quad-xor', [1, 4, 9, 12], [2, 5, 10, 13], [3, 6, 8, 11]],
  ['quad-nor', [2, 5, 8, 11], [3, 6, 9, 12], [1, 4, 10, 13]],
  ['hex-inverter', [1, 3, 5, 9, 11, 13], [], [2, 4, 6, 8, 10, 12]],
] as const)('%s has its pins where data sheets have them', (id, a, b, y) => {
  const at = Object.fromEntries(
    partKind(id)!
      .pins({})
      .map((p) => [p.name, Number(p.pin)]),
  );
  const named = (pins: readonly number[], letter: string) => pins.map((pin, i) => [`${i + 1}${letter}`, pin] as const);
  expect(at).toEqual({ ...Object.fromEntries([...named(a, 'A'), ...named(b, 'B'), ...named(y, 'Y')]), GND: 7, VCC: 14 });
});
