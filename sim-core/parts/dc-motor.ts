/**
 * Small DC motor with permanent magnets, beside the boards: a winding, and behind it a shaft with inertia and friction in proportion to its speed, whose back
 * EMF grows with that. From what sheets give: voltage, stall current, no-load current and no-load speed. Not modelled: brushes, cogging, a load.
 */
import { offBoard } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { winding } from './figures/windings.ts';
import { definePart, type Figure, type Params } from './part.ts';

const from = (name: string, value: number, unit: string): Figure => ({
  name,
  value,
  unit,
  source: 'from memory: a motor of 20 mm for toys and models',
});
/** L/R of its winding, and how long it takes to 63 % of its speed [s]. */
const ELECTRICAL = 0.2e-3;
const MECHANICAL = 30e-3;

/** Ohm's law at stall, and at no load what the winding leaves to the back EMF. */
function laws(p: Params) {
  const [volts, stall, idle] = [Number(p.volts), Number(p.stall), Number(p.idle)];
  const ohms = volts / stall;
  const emf = volts - ohms * idle;
  return {
    ...winding(ohms, ELECTRICAL * ohms),
    turning: { farads: MECHANICAL / ohms, siemens: idle / emf, rpmPerVolt: Number(p.rpm) / emf },
  };
}

export const dcMotor = definePart({
  id: 'dc-motor',
  title: 'DC motor',
  synonyms: ['motor', 'toy motor', 'hobby motor'],
  group: 'passive',
  letters: 'M',
  params: [
    { name: 'volts', type: 'number', unit: 'V', fallback: 3, least: 0.5, most: 30 },
    { name: 'stall', type: 'number', unit: 'A', fallback: 0.8, least: 0.01, most: 10, called: 'stall current' },
    { name: 'idle', type: 'number', unit: 'A', fallback: 0.1, least: 0.001, most: 5, called: 'no-load current' },
    { name: 'rpm', type: 'number', unit: '', fallback: 9000, least: 1, most: 50e3, called: 'no-load speed, revolutions a minute' },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 15, least: 0, most: 50 },
  ],
  footprint: () => offBoard,
  pins: () => [
    { pin: '+', name: '+', role: 'passive' },
    { pin: '-', name: '−', role: 'passive' },
  ],
  figures: [from('electrical time constant', ELECTRICAL, 's'), from('mechanical time constant', MECHANICAL, 's')],
  contradiction: (p) =>
    Number(p.idle) < Number(p.stall)
      ? undefined
      : `its no-load current of ${siFormat(Number(p.idle), 'A')} must be below its stall current of ${siFormat(Number(p.stall), 'A')}.`,
  spread: { of: 'stall', source: 'from memory: its magnets and its wire together' },
  value: (p) => `${siFormat(Number(p.volts), 'V')}, stall ${siFormat(Number(p.stall), 'A')}`,
  connect(w, p) {
    const { turning, ...coil } = laws(p);
    w.coil('+', '-', coil, turning);
  },
});
