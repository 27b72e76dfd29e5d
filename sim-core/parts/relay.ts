/** Relay with two change-over contacts, in the outline of a 16-pin package: what its winding does to its contacts, and when. */
import { dip, type Footprint } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { NOTHING } from './figures/channels.ts';
import { dipContact } from './figures/contacts.ts';
import { winding } from './figures/windings.ts';
import { startRelay } from './logic/relay-behaviour.ts';
import { type ChipSpec, constantCurrent, definePart, type Figure, type Params, type Pin } from './part.ts';

const from = (name: string, value: number, unit: string): Figure => ({
  name,
  value,
  unit,
  source: 'from memory: a small relay for printed boards with two change-over contacts',
});

/** Time constant of its winding at rest, L/R [s]. */
const TIME_CONSTANT = 1e-3;
/** Voltages at its winding, in parts of that it is made for: at the latest it operates at the first as it rises, and releases at the second as it falls. */
const OPERATES = 0.75;
const RELEASES = 0.1;
/** From there until its contacts have moved, and how long those touch neither side on their way [s]. */
const TIMES = { operate: 3e-3, release: 2e-3, transfer: 0.5e-3 };
const CONTACT = { on: 0.05, off: dipContact.off, bounce: dipContact.bounce };

/** Legs of the outline that it has, with what each is: winding A1 and A2; of each contact its common, normally closed and normally open leg. */
const PINS: readonly Pin[] = [
  { pin: '1', name: 'A1', role: 'passive' },
  { pin: '4', name: 'COM1', role: 'passive' },
  { pin: '6', name: 'NC1', role: 'passive' },
  { pin: '8', name: 'NO1', role: 'passive' },
  { pin: '9', name: 'NO2', role: 'passive' },
  { pin: '11', name: 'NC2', role: 'passive' },
  { pin: '13', name: 'COM2', role: 'passive' },
  { pin: '16', name: 'A2', role: 'passive' },
];
const outline: Footprint = { ...dip(16), only: PINS.map((p) => Number(p.pin)) };

const contacts = [1, 2].flatMap((k) =>
  (['NC', 'NO'] as const).map((side) => ({ ends: [`COM${k}`, `${side}${k}`], ...CONTACT, atRest: side === 'NC' }) as const),
);
const none = from('current of an output, which it has none of', 0, 'A');

/** What moves its contacts, told of its winding's current; it has neither supply nor outputs. */
function mover(p: Params): ChipSpec {
  const nominal = Number(p.volts) / Number(p.ohms);
  const idle = { low: NOTHING, high: NOTHING };
  return {
    supplyPin: 'A2',
    groundPin: 'A2',
    inputs: [],
    outputs: [],
    input: { vil: 0, vih: 0, leakage: 0, capacitance: 0 },
    drive: { typical: idle, guaranteed: idle },
    released: { leakage: 0, capacitance: 0 },
    supplyCurrent: constantCurrent(0),
    mostPinCurrent: none,
    mostPackageCurrent: none,
    decoupled: true,
    supplyMarks: [],
    supplyRange: [0, 100],
    contacts,
    coilMarks: [OPERATES * nominal, RELEASES * nominal],
    start: (bench) => startRelay(bench, { ...TIMES, bounce: CONTACT.bounce, contacts }),
  };
}

export const relay = definePart({
  id: 'relay',
  title: 'Relay, two change-over contacts',
  synonyms: ['relay', 'DPDT relay', 'changeover relay'],
  group: 'switch',
  letters: 'K',
  params: [
    { name: 'volts', type: 'number', unit: 'V', fallback: 5, least: 1, most: 48, called: 'voltage that its winding is made for' },
    { name: 'ohms', type: 'number', unit: 'Ω', fallback: 125, least: 10, most: 20e3, called: 'resistance of its winding' },
    { name: 'tolerance', type: 'number', unit: '%', fallback: 10, least: 0, most: 50 },
  ],
  footprint: () => outline,
  pins: () => PINS,
  figures: [
    from('time constant of its winding', TIME_CONSTANT, 's'),
    from('operates from, share of its rating', OPERATES, ''),
    from('releases below, share of its rating', RELEASES, ''),
    from('operate time', TIMES.operate, 's'),
    from('release time', TIMES.release, 's'),
    from('transfer time, neither side closed', TIMES.transfer, 's'),
    from('contact, closed', CONTACT.on, 'Ω'),
  ],
  spread: { of: 'ohms', source: 'from memory: 10 % at 20 °C' },
  value: (p) => `${siFormat(Number(p.volts), 'V')}, ${siFormat(Number(p.ohms), 'Ω')}`,
  connect(w, p) {
    w.coil('1', '16', winding(Number(p.ohms), TIME_CONSTANT * Number(p.ohms)));
    w.chip(mover(p));
  },
});
