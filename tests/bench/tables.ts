/** Tables of 65 536 rows and 16 outputs: built, minimised, put into images and compared, each beside one visit to every cell. */
import { cellAt, compareImages, imagesOf, minimise, rowsOf, sayComparison, tableOfRules, wholeImage } from '../../sim-core/index.ts';
import { straightPins } from '../support/straight-pins.ts';
import { median, ms, printTable, times, value } from './measure.ts';
import { keep } from './report.ts';

const INPUTS = Array.from({ length: 16 }, (_, i) => `A${i}`);
const OUTPUTS = Array.from({ length: 16 }, (_, i) => `P${i}`);
const MULTIPLY = 'P15..P0 = A15..A8 times A7..A0';
const BIT_BY_BIT = OUTPUTS.map((o, i) => `${o} = (X plus ${i}) mod ${i + 3} > 1 XOR A${i} AND NOT A${(i + 3) % 16} OR X > Y`).join('\n');

export function benchTables(): void {
  const table = value(tableOfRules(INPUTS, OUTPUTS, MULTIPLY));
  let ones = 0;
  const visit = median(() => {
    ones = 0;
    for (let r = 0; r < rowsOf(table); r++) for (let o = 0; o < 16; o++) if (cellAt(table, r, o) === 1) ones++;
  });
  const pins = straightPins(table, 16);
  const [low] = value(imagesOf(table, pins));
  if (!low) throw new Error('there is no image');
  const turned = wholeImage(low.bytes.map((b) => Number.parseInt([...b.toString(2).padStart(8, '0')].toReversed().join(''), 2)));
  const damaged = wholeImage(low.bytes.map((b, a) => (a % 5003 === 7 ? b ^ 8 : b)));
  let products = 0;

  const rows: readonly (readonly [string, number])[] = [
    ['8 × 8 bit product by a rule', median(() => value(tableOfRules(INPUTS, OUTPUTS, MULTIPLY)), 5, 1)],
    ['16 rules of a dozen signs each', median(() => value(tableOfRules(INPUTS, OUTPUTS, `X = A15..A8\nY = A7..A0\n${BIT_BY_BIT}`)), 5, 1)],
    ['two images through a pin map', median(() => value(imagesOf(table, pins)), 5, 1)],
    ['images compared: D0 to D7 reversed', median(() => sayComparison(value(compareImages(low, turned))), 3, 1)],
    ['images compared: single bits', median(() => sayComparison(value(compareImages(low, damaged))), 3, 1)],
    [
      'all 16 sums of products',
      median(
        () => {
          products = table.outputs.reduce((n, _, o) => n + minimise(table, o).products.length, 0);
        },
        1,
        0,
      ),
    ],
  ];
  keep('table: every cell visited', visit);
  for (const [what, t] of rows) keep(`table: ${what}`, t);
  printTable(`Tables of 65 536 rows × 16 outputs (the sums have ${products} products)`, [
    ['', 'ms', 'beside one visit to every cell'],
    [`every cell visited once (${ones} are 1)`, ms(visit), times(1)],
    ...rows.map(([what, t]) => [what, ms(t), times(t / visit)]),
  ]);
}
