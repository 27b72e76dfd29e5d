import type { Plan } from '../../shared/plan.ts';
import type { Simulation } from '../../sim-core/index.ts';
import type { Change, Sentence, Severity } from '../core.ts';

interface F {
  code: string;
  severity: Severity;
  t: Sentence;
}
export const findingsNow = (_s: Simulation): F[] => [
  {
    code: 'x',
    severity: 'luck',
    t: [
      { text: 'Memory U1', ref: { kind: 'part', id: 'U1' } },
      ' has no capacitor across its supply pins. Put 100 nF between ',
      { text: 'VCC', ref: { kind: 'pin', id: 'U1.24' } },
      ' and ',
      { text: 'GND', ref: { kind: 'pin', id: 'U1.12' } },
      '.',
    ],
  },
  {
    code: 'y',
    severity: 'harm',
    t: [
      'Lamp ',
      { text: 'D4', ref: { kind: 'part', id: 'D4' } },
      ' draws 27 mA from memory pin 13 (limit 10 mA). Put at least 330 Ω in series.',
    ],
  },
];
export const sayFinding = (f: F, _p: Plan): Sentence => f.t;
export const whyLamp = (_s: Simulation, lamp: string) => lamp;
export const sayWhy = (lamp: string, plan: Plan) => ({
  headline: ['The ', { text: lamp, ref: { kind: 'lamp', id: lamp } }, ' lamp is dim: 0.41 mA.'] as Sentence,
  note: 'It looks lit above 2 mA, and shows at all above 0.1 mA.',
  steps: [
    {
      says: ['Memory pin ', { text: 'D6', ref: { kind: 'pin', id: 'U1.16' } }, ' drives high, but only weakly.'] as Sentence,
      figures: '3.1 V at 0.41 mA; guaranteed 2.4 V at 0.4 mA',
    },
    {
      says: ['The ', { text: 'resistor', ref: { kind: 'part', id: 'L7' } }, ' from the lamp to − is 3.3 kΩ.'] as Sentence,
      figures: 'R7, orange orange red; the other seven are 330 Ω',
    },
  ],
  proof: {
    says: [
      'With 330 Ω in place of ',
      { text: 'L7', ref: { kind: 'part', id: 'L7' } },
      ' the lamp takes 4.1 mA and is lit. Nothing else changes.',
    ] as Sentence,
    change: { op: 'set-hands', id: 'S1', before: plan.hands.S1, after: [true, true, true, true, true] } as Change,
  },
});
