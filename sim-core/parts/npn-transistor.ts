/** Small NPN transistor, three legs in line: emitter, base, collector. Used as a switch. */
import { inLine } from '../board/footprints.ts';
import { readyJunction, THERMAL_VOLTAGE } from '../devices/device-models.ts';
import { definePart } from './part.ts';

/** Saturation current of the transport [A], current gains forward and reverse, series resistance of each junction [Ω]; from memory, a general-purpose type. */
const IS = 1e-14;
const BETA_REVERSE = 5;
const SERIES = 0.05;

/** Between collector and emitter with its base off [V]: where a typical one gives way, and what sheets allow; from memory, a general-purpose type. */
const BREAKDOWN = 60;
const mostVolts = { name: 'collector to emitter', value: 40, unit: 'V', source: 'from memory, a general-purpose type' } as const;

/** Ebers and Moll: αF·I_ES = αR·I_CS = IS, β = α/(1 − α). */
function model(beta: number) {
  const alphaF = beta / (1 + beta);
  const alphaR = BETA_REVERSE / (1 + BETA_REVERSE);
  return {
    alphaF,
    alphaR,
    forward: readyJunction({ is: IS / alphaF, nvt: THERMAL_VOLTAGE, rs: SERIES }),
    breakdown: BREAKDOWN,
    reverse: readyJunction({ is: IS / alphaR, nvt: THERMAL_VOLTAGE, rs: SERIES }),
  };
}

const mostCurrent = { name: 'collector current', value: 0.2, unit: 'A', source: 'from memory, a general-purpose type' } as const;
const mostPower = { name: 'power', value: 0.625, unit: 'W', source: 'from memory, in free air at 25 °C' } as const;

export const npnTransistor = definePart({
  id: 'npn-transistor',
  title: 'NPN transistor',
  synonyms: ['transistor', 'BJT', 'bipolar transistor'],
  group: 'passive',
  letters: 'Q',
  params: [
    { name: 'gain', type: 'number', unit: '', fallback: 150, least: 10, most: 1000 },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 50, least: 0, most: 90 },
  ],
  footprint: () => inLine(3),
  pins: () => [
    { pin: '1', name: 'emitter', role: 'passive' },
    { pin: '2', name: 'base', role: 'passive' },
    { pin: '3', name: 'collector', role: 'passive' },
  ],
  figures: [
    { name: 'saturation current', value: IS, unit: 'A', source: 'from memory' },
    { name: 'reverse current gain', value: BETA_REVERSE, unit: '', source: 'from memory' },
    { name: 'series resistance of each junction', value: SERIES, unit: 'Ω', source: 'from memory' },
    { name: 'breakdown from collector to emitter, typical', value: BREAKDOWN, unit: 'V', source: 'from memory' },
    mostVolts,
    mostCurrent,
    mostPower,
  ],
  mostCurrent,
  mostPower,
  switches: { most: mostVolts, gives: BREAKDOWN },
  spread: { of: 'gain', source: 'from memory: sheets bound it only to within a factor of three or so' },
  value: (p) => `gain ${p.gain}`,
  connect(w, p) {
    w.transistor('3', '2', '1', model(Number(p.gain)));
  },
});
