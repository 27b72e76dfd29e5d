/** The lookout tells of every mark that has been passed, once, in the order of the watches, whatever voltages they share. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { GROUND } from '../../sim-core/devices/network.ts';
import { PASSED, ThresholdCrossings, type Watch } from '../../sim-core/run/analog/threshold-crossings.ts';

/** Four nodes; the fifth place of the voltages is ground. */
const node = fc.constantFrom(0, 1, 2, 3, GROUND);
const volts = fc.array(fc.double({ min: -1, max: 6, noNaN: true }), { minLength: 4, maxLength: 4 }).map((v) => Float64Array.of(...v, 0));
const anyWatch: fc.Arbitrary<Watch> = fc
  .record({ a: node, b: node, c: fc.option(node), mark: fc.constantFrom(0.3, 0.7, 0.8, 2, 3.5) })
  .map(({ c, ...w }) => (c === null ? w : { ...w, c }));

test('as one would who looks at each by itself', () => {
  fc.assert(
    fc.property(fc.array(anyWatch, { minLength: 1, maxLength: 24 }), fc.array(volts, { minLength: 1, maxLength: 8 }), (list, moments) => {
      const above = new Uint8Array(list.length);
      const lookout = new ThresholdCrossings({ list, above }, 4);
      const alone = list.map(() => false);
      for (const v of moments) {
        const at = (n: number) => (n === GROUND ? 0 : v[n]!);
        const beyond = list.flatMap(({ a, b, c, mark }, i) => {
          const by = at(a) - at(b) - (c === undefined ? mark : mark * (at(c) - at(b)));
          return (alone[i] ? by < -PASSED : by > PASSED) ? [i] : [];
        });
        expect([...lookout.passing(v, lookout.every)]).toEqual(beyond);
        for (const i of lookout.cross(Int32Array.from(beyond))) alone[i] = !alone[i];
        expect([...above].map((x) => x === 1)).toEqual(alone);
        expect([...lookout.passing(v, lookout.every)]).toEqual([]);
      }
    }),
    { numRuns: 300 },
  );
});

test('in the order of the watches, though the first voltage is watched by the last of them too', () => {
  const list: Watch[] = [
    { a: 0, b: GROUND, mark: 4 },
    { a: 1, b: GROUND, mark: 1 },
    { a: 2, b: GROUND, mark: 1 },
    { a: 0, b: GROUND, mark: 1 },
  ];
  const lookout = new ThresholdCrossings({ list, above: new Uint8Array(4) }, 4);
  // three voltages, looked at once each
  expect([...lookout.every]).toEqual([0, 1, 2]);
  expect([...lookout.passing(Float64Array.of(2, 2, 2, 0, 0), lookout.every)]).toEqual([1, 2, 3]);
});
