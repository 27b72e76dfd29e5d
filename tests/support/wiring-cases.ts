/** Builds whose wiring is judged: the same hundred loaded ones and hundred written by hand, every time. */
import fc from 'fast-check';
import type { BuildRequest } from '../../sim-core/index.ts';
import { aWish } from './any-build.ts';

const some = (wishes: fc.Arbitrary<BuildRequest>): readonly BuildRequest[] => fc.sample(wishes, { numRuns: 100, seed: 14 });

/** By group. */
export const WIRING_CASES: Readonly<Record<'loaded' | 'by hand', readonly BuildRequest[]>> = {
  loaded: some(aWish([2, 8], false, ['eeprom-2kx8', 'eeprom-32kx8'])),
  'by hand': some(aWish([2, 6], true, ['eeprom-2kx8', 'static-ram-2kx8'])),
};
