/** Small plans for tests: the emptiest one, and one made from it by filling in. */
import type { Plan } from '../../shared/plan.ts';

export const emptyPlan: Plan = {
  format: 'lampwright-plan',
  version: 2,
  title: 'A bench for a test',
  boards: [{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: true }],
  parts: [],
  wires: [],
  memories: {},
  meters: [],
  notes: [],
  switches: {},
};

export const planWith = (over: Partial<Plan>): Plan => ({ ...emptyPlan, ...over });

/** A supply, a resistor and a red LED in a row: 5 V, so many ohms. */
export const ledPlan = (ohms: number, on = true): Plan =>
  planWith({
    title: 'One LED',
    parts: [
      { id: 'PS1', kind: 'bench-supply', spot: [-12, 4] },
      { id: 'R1', kind: 'resistor', at: 'a5', to: 'a10', params: { ohms } },
      { id: 'LED1', kind: 'led', at: 'b10', to: 'b14', params: { colour: 'red' } },
    ],
    wires: [
      { id: 'W1', from: 'PS1.+', to: 'b5', colour: 'red' },
      { id: 'W2', from: 'c14', to: 'PS1.-', colour: 'black' },
    ],
    switches: { PS1: [on] },
  });

/** A static RAM and its supply, which is on or off. */
export const ramPlan = (on: boolean): Plan =>
  planWith({
    parts: [
      { id: 'PS1', kind: 'bench-supply', spot: [-12, 4] },
      { id: 'U1', kind: 'static-ram-8kx8', at: 'd12' },
    ],
    wires: [
      { id: 'W1', from: 'PS1.+', to: 'j12', colour: 'red' },
      { id: 'W2', from: 'PS1.-', to: 'a25', colour: 'black' },
    ],
    switches: { PS1: [on] },
  });
