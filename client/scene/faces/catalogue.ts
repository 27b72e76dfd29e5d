/** Which part wears which face, told by what the part is made of, so that a new kind of memory or lamp needs no line here. */
import type { Specimen } from '../../standing.ts';
import { drawBenchSupply } from './bench-supply.ts';
import { drawCapacitor } from './capacitor.ts';
import { drawCrystalCan } from './crystal-can.ts';
import { drawDigit } from './digit.ts';
import { drawDiode } from './diode.ts';
import { drawDipSwitch } from './dip-switch.ts';
import { drawElectrolytic } from './electrolytic.ts';
import type { DrawFace } from './face.ts';
import { drawLampBar } from './lamp-bar.ts';
import { drawLed } from './led.ts';
import { drawLogicChip } from './logic-chip.ts';
import { drawMemory } from './memory.ts';
import { drawPlain } from './plain.ts';
import { drawPotentiometer } from './potentiometer.ts';
import { drawPulseSource } from './pulse-source.ts';
import { drawPushButton } from './push-button.ts';
import { drawResistor } from './resistor.ts';
import { drawTransistor } from './transistor.ts';

const shape = (s: Specimen) => s.kind.footprint(s.params).shape;

/** The first that fits is worn. */
const FACES: ReadonlyArray<readonly [fits: (s: Specimen) => boolean, draw: DrawFace]> = [
  [(s) => s.supply !== undefined && shape(s) === 'off-board', drawBenchSupply],
  [(s) => s.isChip && shape(s) === 'off-board', drawPulseSource],
  [(s) => s.isChip && shape(s) === 'corners', drawCrystalCan],
  [(s) => s.kind.group === 'memory' && s.isChip, drawMemory],
  [(s) => s.isChip && shape(s) === 'rows', drawLogicChip],
  [(s) => s.kind.group === 'switch' && shape(s) === 'four-leg', drawPushButton],
  [(s) => s.kind.group === 'switch' && shape(s) === 'rows', drawDipSwitch],
  [(s) => s.kind.group === 'lamp' && shape(s) === 'two-lead', drawLed],
  [(s) => s.kind.group === 'lamp' && s.legs.length === 10, drawDigit],
  [(s) => s.kind.group === 'lamp' && shape(s) === 'rows', drawLampBar],
  [(s) => shape(s) === 'two-lead' && 'ohms' in s.params, drawResistor],
  [(s) => shape(s) === 'two-lead' && 'farads' in s.params && s.kind.polar !== undefined, drawElectrolytic],
  [(s) => shape(s) === 'two-lead' && 'farads' in s.params, drawCapacitor],
  [(s) => s.kind.id === 'diode', drawDiode],
  [(s) => shape(s) === 'in-line' && 'wiper' in s.params, drawPotentiometer],
  [(s) => s.kind.id === 'npn-transistor', drawTransistor],
];

export const faceFor = (s: Specimen): DrawFace => FACES.find(([fits]) => fits(s))?.[1] ?? drawPlain;
