/** Octal D register and octal latch, three-state, in both usual pin-outs: eight bits taken at a rising edge, or let through while a pin is high. */

import { many, RELEASED, type Taking } from './logic/logic-function.ts';
import { logicPart } from './logic/logic-part.ts';

/** Outputs beside their inputs, or inputs along one side and outputs along the other: SOURCES.md S1, S18, S34. */
const PINS = {
  paired: (take: string) => `/OE Q1 D1 D2 Q2 Q3 D3 D4 Q4 GND ${take} Q5 D5 D6 Q6 Q7 D7 D8 Q8 VCC`,
  sides: (take: string) => `/OE D1 D2 D3 D4 D5 D6 D7 D8 GND ${take} Q8 Q7 Q6 Q5 Q4 Q3 Q2 Q1 VCC`,
} as const;

const octal = (id: string, title: string, pins: keyof typeof PINS, takes: Taking & { pin: string }) =>
  logicPart({
    id,
    title,
    synonyms: takes.at === 'level' ? ['latch', 'transparent latch', 'D latch'] : ['flip-flop', 'register', 'D type'],
    pins: PINS[pins](takes.pin),
    strength: 'bus',
    rule: {
      cells: many(8, (i) => ({ bits: 1, of: [`D${i + 1}`], next: (d: number) => d })),
      takes,
      outputs: many(8, (i) => ({
        name: `Q${i + 1}`,
        of: ['/OE'],
        cell: i,
        is: (off: number, q: number) => (off ? RELEASED : q),
      })),
    },
    toRead: { '/OE': 'L' },
    delay: { HC: 15e-9, HCT: 17e-9, LS: 19e-9 },
    supplyCurrent: { HC: 80e-6, HCT: 80e-6, LS: 40e-3 },
  });

const edge = { at: 'edge', pin: 'CP' } as const;
const level = { at: 'level', pin: 'LE', level: 'H' } as const;

export const octalRegister = octal('octal-register', 'Octal D register, three-state', 'sides', edge);
export const octalRegisterPaired = octal('octal-register-paired', 'Octal D register, three-state, outputs beside inputs', 'paired', edge);
export const octalLatch = octal('octal-latch', 'Octal latch, three-state', 'sides', level);
export const octalLatchPaired = octal('octal-latch-paired', 'Octal latch, three-state, outputs beside inputs', 'paired', level);
