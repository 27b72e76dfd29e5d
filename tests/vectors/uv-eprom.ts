/** Vectors of UV EPROMs: programming by pulses, VPP, erasing by light. */
import { DOSE, ERASER } from '../../sim-core/parts/memory/ultraviolet.ts';
import type { UvFigures } from '../../sim-core/parts/memory/uv-eprom.ts';
import type { Level } from '../../sim-core/parts/part.ts';
import { readVectors } from './read.ts';
import type { Vector, VectorStep } from './vector.ts';

/** So long in the eraser. */
const erase = (seconds: number, covered?: true): VectorStep => ({
  light: seconds,
  wattsPerCm2: ERASER,
  ...(covered ? { covered } : {}),
});
const WHOLE = DOSE / ERASER;

/** pulse: the pin that is pulsed, its level at rest and during the pulse; idle: the other pins as programming needs them. */
export function uvVectors(
  f: UvFigures,
  on: Readonly<Record<string, number>>,
  pulse: { readonly pin: string; readonly rest: 0 | 1 },
  idle: Readonly<Record<string, number>>,
): Vector[] {
  const program = (address: number, byte: number, seconds: number, vpp: 'high' | 1 = 'high'): VectorStep[] => [
    { set: { ...idle, [pulse.pin]: pulse.rest, A: address } },
    { wait: 1e-6 },
    { set: { D: byte, VPP: vpp } },
    { wait: 10e-6 },
    { set: { [pulse.pin]: 1 - pulse.rest } },
    { wait: seconds },
    { set: { [pulse.pin]: pulse.rest } },
    { wait: 10e-6 },
    { set: { D: 'open', VPP: 1 } },
  ];
  const read = (address: number, sees: number | Readonly<Record<string, Level>>): VectorStep[] => [
    { set: { ...on, A: address } },
    { wait: 10e-6 },
    { see: typeof sees === 'number' ? { D: sees } : sees },
    { set: { ...idle, [pulse.pin]: pulse.rest } },
    { wait: 1e-6 },
  ];
  const start: VectorStep = { set: { ...on, A: 0 } };
  const enough = f.pulse.whole * 1.02;
  return [
    ...readVectors(on, { '/CE': 1 }, f),
    {
      says: 'a pulse turns ones into zeros, never zeros into ones',
      high: f.vpp.set,
      steps: [start, ...program(5, 0xa5, enough), ...read(5, 0xa5), ...program(5, 0x5f, enough), ...read(5, 0x05), ...read(4, 0xff)],
    },
    {
      says: 'without VPP a pulse changes nothing',
      high: f.vpp.set,
      steps: [start, ...program(5, 0x00, enough, 1), ...read(5, 0xff)],
    },
    {
      says: 'half the time under voltage leaves the bits uncertain, the other half programs them',
      high: f.vpp.set,
      steps: [start, ...program(1, 0x0f, enough / 2), ...read(1, { D7: 'X', D0: 'H' }), ...program(1, 0x0f, enough / 2), ...read(1, 0x0f)],
    },
    {
      says: 'light erases all of it after its whole dose, and nothing through a label',
      high: f.vpp.set,
      contents: { '000': '00FF0055' },
      steps: [start, erase(WHOLE, true), ...read(0, 0x00), ...read(3, 0x55), erase(WHOLE), ...read(0, 0xff), ...read(3, 0xff)],
    },
    {
      says: 'a tenth of the dose erases nothing yet',
      contents: { '000': '00FF0055' },
      steps: [start, erase(WHOLE / 10), ...read(0, 0x00), ...read(3, 0x55)],
    },
    {
      says: 'VPP low makes what is read undefined',
      contents: { '000': '00' },
      steps: [{ set: { ...on, A: 0, VPP: 0 } }, { wait: 10e-6 }, { see: { D: 'X' } }],
    },
  ];
}
