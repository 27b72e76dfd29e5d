/** Bench supply: a voltage behind a small resistance, with a current limit and a switch. */
import { offBoard } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { definePart } from './part.ts';

export const benchSupply = definePart({
  id: 'bench-supply',
  title: 'Bench supply',
  synonyms: ['power supply', 'battery', 'PSU', 'VCC', 'GND', 'ground', '5V'],
  group: 'supply',
  params: [
    { name: 'volts', type: 'number', unit: 'V', fallback: 5, least: 0, most: 30 },
    { name: 'ohms', type: 'number', unit: 'Ω', fallback: 0.1, least: 0.001, most: 100 },
    { name: 'amps', type: 'number', unit: 'A', fallback: 0.5, least: 0.001, most: 10 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 10, least: 0, most: 50 },
  ],
  footprint: () => offBoard,
  pins: () => [
    { pin: '+', name: '+', role: 'supply' },
    { pin: '-', name: '−', role: 'ground' },
  ],
  figures: [
    { name: 'usual voltage', value: 5, unit: 'V', source: 'common practice, no source' },
    { name: 'internal resistance', value: 0.1, unit: 'Ω', source: 'from memory' },
    { name: 'current limit', value: 0.5, unit: 'A', source: 'from memory: fuse or limit the 5 V, e.g. 500 mA' },
  ],
  spread: { of: 'volts', source: 'common practice, no source: 5 V ± 10 %, what the memories are specified for' },
  value: (p) => siFormat(Number(p.volts), 'V'),
  connect(w, p) {
    w.supply('+', '-', { volts: Number(p.volts), ohms: Number(p.ohms), amps: Number(p.amps) });
  },
});
