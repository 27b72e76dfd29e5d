/** Which part wears which face, told by what the part is made of, so that a new kind of memory or LED needs no line here. */
import type { PlacedPart } from '../../state/bench-model.ts';
import { drawBenchSupply } from './bench-supply.ts';
import { drawCapacitor } from './capacitor.ts';
import { drawPulseSource } from './clock-generator.ts';
import { drawCrystalCan } from './crystal-oscillator.ts';
import { drawDcMotor } from './dc-motor.ts';
import { drawDiode, drawRectifierDiode } from './diode.ts';
import { drawDipSwitch } from './dip-switch.ts';
import { drawElectrolytic } from './electrolytic.ts';
import type { DrawFace } from './face.ts';
import { drawInductor } from './inductor.ts';
import { drawLed } from './led.ts';
import { drawLedBar } from './led-bar-graph.ts';
import { drawLogicChip } from './logic-chip.ts';
import { drawMemory } from './memory.ts';
import { drawPlain } from './plain.ts';
import { drawPotentiometer } from './potentiometer.ts';
import { drawPushButton } from './push-button.ts';
import { drawResistor } from './resistor.ts';
import { drawDigit } from './seven-segment-display.ts';
import { drawTransistor } from './transistor.ts';

const shape = (s: PlacedPart) => s.kind.footprint(s.params).shape;

/** The first that fits is worn. */
const FACES: ReadonlyArray<readonly [fits: (s: PlacedPart) => boolean, draw: DrawFace]> = [
  [(s) => s.supply !== undefined && shape(s) === 'off-board', drawBenchSupply],
  [(s) => s.isChip && shape(s) === 'off-board', drawPulseSource],
  [(s) => s.isChip && shape(s) === 'corners', drawCrystalCan],
  [(s) => s.kind.group === 'memory' && s.isChip, drawMemory],
  [(s) => s.isChip && shape(s) === 'rows', drawLogicChip],
  [(s) => s.kind.group === 'switch' && shape(s) === 'four-leg', drawPushButton],
  [(s) => s.kind.group === 'switch' && shape(s) === 'rows', drawDipSwitch],
  [(s) => s.kind.group === 'led' && shape(s) === 'two-leg', drawLed],
  [(s) => s.kind.group === 'led' && s.legs.length === 10, drawDigit],
  [(s) => s.kind.group === 'led' && shape(s) === 'rows', drawLedBar],
  [(s) => 'henries' in s.params, drawInductor],
  [(s) => 'rpm' in s.params, drawDcMotor],
  [(s) => shape(s) === 'two-leg' && 'ohms' in s.params, drawResistor],
  [(s) => shape(s) === 'two-leg' && 'farads' in s.params && s.kind.polar !== undefined, drawElectrolytic],
  [(s) => shape(s) === 'two-leg' && 'farads' in s.params, drawCapacitor],
  [(s) => s.kind.id === 'diode', drawDiode],
  [(s) => s.kind.id === 'rectifier-diode', drawRectifierDiode],
  [(s) => shape(s) === 'in-line' && 'wiper' in s.params, drawPotentiometer],
  [(s) => s.kind.id === 'npn-transistor', drawTransistor],
];

export const faceFor = (s: PlacedPart): DrawFace => FACES.find(([fits]) => fits(s))?.[1] ?? drawPlain;
