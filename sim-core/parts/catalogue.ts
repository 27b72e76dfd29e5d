/** Every part there is, one line each. A test fails if a part file is not listed here. */
import { battery } from './battery.ts';
import { benchSupply } from './bench-supply.ts';
import { capacitor } from './capacitor.ts';
import { pulseSource } from './clock-generator.ts';
import { counter4Bit } from './counter-4-bit.ts';
import { crystalClock } from './crystal-oscillator.ts';
import { darlingtonArray7, darlingtonArray8 } from './darlington-array.ts';
import { dcMotor } from './dc-motor.ts';
import { decoder3To8 } from './decoder-3-to-8.ts';
import { diode } from './diode.ts';
import { dipSwitch } from './dip-switch.ts';
import { eeprom2k } from './eeprom-2kx8.ts';
import { eeprom8k } from './eeprom-8kx8.ts';
import { eeprom32k } from './eeprom-32kx8.ts';
import { eeprom64k } from './eeprom-64kx8.ts';
import { electrolytic } from './electrolytic.ts';
import { hexInverter, schmittInverter } from './hex-inverter.ts';
import { inductor } from './inductor.ts';
import { led } from './led.ts';
import { ledBar } from './led-bar-graph.ts';
import { maskRom2k } from './mask-rom-2kx8.ts';
import { memoryFromSheet } from './memory-from-sheet.ts';
import { npnTransistor } from './npn-transistor.ts';
import { octalBuffer } from './octal-buffer.ts';
import { octalLatch, octalLatchPaired, octalRegister, octalRegisterPaired } from './octal-register.ts';
import { octalRegisterClear } from './octal-register-clear.ts';
import { octalTransceiver } from './octal-transceiver.ts';
import type { PartKind } from './part.ts';
import { potentiometer } from './potentiometer.ts';
import { fuseProm2k } from './prom-2kx8.ts';
import { pushButton } from './push-button.ts';
import { quadAnd, quadNand, quadNor, quadOr, quadXor } from './quad-gates.ts';
import { rectifierDiode } from './rectifier-diode.ts';
import { relay } from './relay.ts';
import { resistor } from './resistor.ts';
import { digitCommonAnode, digitCommonCathode } from './seven-segment-display.ts';
import { digitDriverHigh, digitDriverLatch, digitDriverLow } from './seven-segment-driver.ts';
import { staticRam2k } from './static-ram-2kx8.ts';
import { staticRam8k } from './static-ram-8kx8.ts';
import { staticRam32k } from './static-ram-32kx8.ts';
import { timer } from './timer.ts';
import { usbSupply } from './usb-supply.ts';
import { uvEprom2k } from './uv-eprom-2kx8.ts';
import { uvEprom8k } from './uv-eprom-8kx8.ts';

/** Every kind of part, in the order in which they are offered. */
export const PARTS: readonly PartKind[] = [
  benchSupply,
  usbSupply,
  battery,
  eeprom2k,
  eeprom8k,
  eeprom32k,
  eeprom64k,
  staticRam2k,
  staticRam8k,
  staticRam32k,
  maskRom2k,
  fuseProm2k,
  uvEprom2k,
  uvEprom8k,
  memoryFromSheet,
  dipSwitch,
  pushButton,
  relay,
  resistor,
  capacitor,
  inductor,
  led,
  digitCommonAnode,
  digitCommonCathode,
  octalBuffer,
  octalTransceiver,
  octalRegister,
  octalRegisterPaired,
  octalLatch,
  octalLatchPaired,
  octalRegisterClear,
  counter4Bit,
  decoder3To8,
  quadNand,
  quadNor,
  quadAnd,
  quadOr,
  quadXor,
  hexInverter,
  schmittInverter,
  digitDriverLow,
  digitDriverHigh,
  digitDriverLatch,
  darlingtonArray7,
  darlingtonArray8,
  timer,
  crystalClock,
  pulseSource,
  ledBar,
  diode,
  rectifierDiode,
  electrolytic,
  potentiometer,
  npnTransistor,
  dcMotor,
];

const byId = new Map(PARTS.map((p) => [p.id, p]));
/** The kind of part with this id; undefined if there is none. */
export const partKind = (id: string): PartKind | undefined => byId.get(id);

/** The parameter whose value says by itself what it is, as `4k7` and `red` do: the first, if it has a unit or is a choice. Undefined if there is none. */
export function leadingParam(id: string): string | undefined {
  const [first] = partKind(id)?.params ?? [];
  return first && (first.type === 'choice' || (first.type === 'number' && first.unit !== '')) ? first.name : undefined;
}
