/** Which part wears which face, told by what the part is made of, so that a new kind of memory or lamp needs no line here. */
import type { Specimen } from '../../standing.ts';
import { drawBenchSupply } from './bench-supply.ts';
import { drawCapacitor } from './capacitor.ts';
import { drawDigit } from './digit.ts';
import { drawDipSwitch } from './dip-switch.ts';
import type { DrawFace } from './face.ts';
import { drawLampBar } from './lamp-bar.ts';
import { drawLed } from './led.ts';
import { drawMemory } from './memory.ts';
import { drawPlain } from './plain.ts';
import { drawPushButton } from './push-button.ts';
import { drawResistor } from './resistor.ts';

const shape = (s: Specimen) => s.kind.footprint(s.params).shape;

/** The first that fits is worn. */
const FACES: ReadonlyArray<readonly [fits: (s: Specimen) => boolean, draw: DrawFace]> = [
  [(s) => s.supply !== undefined && shape(s) === 'off-board', drawBenchSupply],
  [(s) => s.kind.group === 'memory' && s.isChip, drawMemory],
  [(s) => s.kind.group === 'switch' && shape(s) === 'four-leg', drawPushButton],
  [(s) => s.kind.group === 'switch' && shape(s) === 'rows', drawDipSwitch],
  [(s) => s.kind.group === 'lamp' && shape(s) === 'two-lead', drawLed],
  [(s) => s.kind.group === 'lamp' && s.legs.length === 10, drawDigit],
  [(s) => s.kind.group === 'lamp' && shape(s) === 'rows', drawLampBar],
  [(s) => shape(s) === 'two-lead' && 'ohms' in s.params, drawResistor],
  [(s) => shape(s) === 'two-lead' && 'farads' in s.params, drawCapacitor],
];

export const faceFor = (s: Specimen): DrawFace => FACES.find(([fits]) => fits(s))?.[1] ?? drawPlain;
