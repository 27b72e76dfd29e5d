/** Pulse source that stands beside the boards: a square wave of set rate and duty between its own two supply terminals. */
import { offBoard } from '../board/footprints.ts';
import { siFormat } from '../units/quantity.ts';
import { channelThrough } from './figures/channels.ts';
import { startOscillator } from './logic/oscillator.ts';
import { constantCurrent, definePart, type Figure } from './part.ts';

/** What its output has inside [Ω]; common practice, no source. */
const OHMS = 50;
/** Supply at which it runs [V]; our choice, as all of this instrument. */
const ALIVE = 2;
const side = channelThrough([[1, 1 / OHMS]]);
const drive = { low: side, high: side };

const current = (name: string): Figure => ({ name, value: 0.1, unit: 'A', source: 'derived: 5 V into a short circuit through 50 Ω' });

export const pulseSource = definePart({
  id: 'clock-generator',
  title: 'Clock generator',
  synonyms: ['clock', 'oscillator', 'pulse generator', 'signal generator', 'function generator', 'square wave'],
  group: 'logic',
  letters: 'PG',
  params: [
    { name: 'hertz', type: 'number', unit: 'Hz', fallback: 1, least: 0.01, most: 10e6 },
    { name: 'duty', type: 'number', unit: '', fallback: 0.5, least: 0.01, most: 0.99 },
  ],
  footprint: () => offBoard,
  pins: () => [
    { pin: '+', name: '+', role: 'supply' },
    { pin: '-', name: '−', role: 'ground' },
    { pin: 'out', name: 'out', role: 'output' },
  ],
  figures: [{ name: 'resistance of its output', value: OHMS, unit: 'Ω', source: 'common practice, no source' }],
  value: (p) => siFormat(Number(p.hertz), 'Hz'),
  connect(w, p) {
    w.chip({
      supplyPin: '+',
      groundPin: '−',
      inputs: [],
      outputs: ['out'],
      input: { vil: 0.3, vih: 0.7, of: 'supply', leakage: 0, capacitance: 0 },
      drive: { typical: drive, guaranteed: drive },
      released: { leakage: 0, capacitance: 10e-12 },
      supplyCurrent: constantCurrent(5e-3),
      mostPinCurrent: current('steady current of its output'),
      mostPackageCurrent: current('steady current of its output'),
      decoupled: true,
      supplyMarks: [ALIVE],
      supplyRange: [3, 15],
      start: (bench) => startOscillator(bench, { hertz: Number(p.hertz), duty: Number(p.duty), alive: ALIVE }),
    });
  },
});
