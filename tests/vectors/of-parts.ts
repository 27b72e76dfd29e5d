/** The vectors of every memory, by its part's id. */
import { eeprom8kSheet } from '../../sim-core/parts/eeprom-8kx8.ts';
import { eeprom32kSheet } from '../../sim-core/parts/eeprom-32kx8.ts';
import { eeprom64kSheet } from '../../sim-core/parts/eeprom-64kx8.ts';
import { staticRam2kSheet } from '../../sim-core/parts/static-ram-2kx8.ts';
import { staticRam8kSheet } from '../../sim-core/parts/static-ram-8kx8.ts';
import { staticRam32kSheet } from '../../sim-core/parts/static-ram-32kx8.ts';
import { uvEprom2kFigures } from '../../sim-core/parts/uv-eprom-2kx8.ts';
import { EARLIER_UV, LATER_UV } from '../../sim-core/parts/uv-eprom-8kx8.ts';
import { wordEepromVectors } from './eeprom.ts';
import { pageVectors } from './page-eeprom.ts';
import { maskRom2kVectors, promVectors } from './read-only.ts';
import { secondSelect, staticRamVectors } from './static-ram.ts';
import { uvVectors } from './uv-eprom.ts';
import type { Vector } from './vector.ts';

const ON_28_PINS = [
  { '/CE': 0, '/OE': 0, '/PGM': 1, VPP: 1 },
  { pin: '/PGM', rest: 1 },
  { '/CE': 0, '/OE': 1 },
] as const;

export const PART_VECTORS: ReadonlyMap<string, readonly Vector[]> = new Map([
  ['eeprom-2kx8', wordEepromVectors()],
  // as it comes it is that EEPROM, without what a sheet's form does not ask for
  ['memory-from-sheet', wordEepromVectors().filter((v) => !v.says.startsWith('12 V'))],
  ['eeprom-8kx8', pageVectors(eeprom8kSheet)],
  ['eeprom-32kx8', pageVectors(eeprom32kSheet)],
  ['eeprom-64kx8', pageVectors(eeprom64kSheet)],
  ['mask-rom-2kx8', maskRom2kVectors()],
  ['prom-2kx8', promVectors()],
  ['static-ram-2kx8', staticRamVectors(staticRam2kSheet)],
  ['static-ram-8kx8', [...staticRamVectors(staticRam8kSheet), secondSelect]],
  ['static-ram-32kx8', staticRamVectors(staticRam32kSheet)],
  ['uv-eprom-2kx8', uvVectors(uvEprom2kFigures, { '/CE': 0, '/OE': 0, VPP: 1 }, { pin: '/CE', rest: 0 }, { '/OE': 1 })],
  [
    'uv-eprom-8kx8',
    [
      ...uvVectors(EARLIER_UV, ...ON_28_PINS),
      ...uvVectors(LATER_UV, ...ON_28_PINS).map((v) => ({ ...v, says: `12.5 V: ${v.says}`, params: { vpp: '12.5 V' } })),
    ],
  ],
]);
