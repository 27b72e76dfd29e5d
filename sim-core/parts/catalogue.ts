/** Every part there is, one line each. A test fails if a part file is not listed here. */
import { benchSupply } from './bench-supply.ts';
import { capacitor } from './capacitor.ts';
import { digitCommonAnode, digitCommonCathode } from './digit.ts';
import { dipSwitch } from './dip-switch.ts';
import { eeprom2k } from './eeprom-2kx8.ts';
import { led } from './led.ts';
import type { PartKind } from './part.ts';
import { pushButton } from './push-button.ts';
import { resistor } from './resistor.ts';

export const PARTS: readonly PartKind[] = [
  benchSupply,
  eeprom2k,
  dipSwitch,
  pushButton,
  resistor,
  capacitor,
  led,
  digitCommonAnode,
  digitCommonCathode,
];

const byId = new Map(PARTS.map((p) => [p.id, p]));
export const partKind = (id: string): PartKind | undefined => byId.get(id);
