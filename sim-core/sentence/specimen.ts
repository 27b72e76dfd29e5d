/** One specimen of a part, by the figure in which it differs: "resistor R3 at 9.5 kΩ", "memory U1 at its guaranteed output drive". */
import { siFormat } from '../units/quantity.ts';
import type { Ref } from './ref.ts';
import { say, type Wording } from './wording.ts';

/** `figure`: as a part's tolerances name it; `value` in `unit`, or 0 guaranteed and 1 typical for 'drive' */
export function specimen(part: Ref, figure: string, value: number, unit: string): Wording {
  if (figure === 'drive') return value < 0.5 ? say`${part} at its guaranteed output drive` : say`${part} at its typical output drive`;
  if (figure === 'forward') return say`${part} with a forward voltage of ${siFormat(value, unit)} at 10 mA`;
  return say`${part} at ${siFormat(value, unit)}`;
}
