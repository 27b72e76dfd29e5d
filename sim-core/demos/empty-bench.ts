/** The bench that building begins on: one board and a supply, nothing wired. */
import type { Plan } from '../../shared/plan.ts';

/** One board and a supply, nothing wired: what a new bench begins with. */
export const emptyBench: Plan = {
  format: 'lampwright-plan',
  version: 2,
  title: 'New bench',
  boards: [{ id: 'B1', kind: 'board-63', spot: [0, 0], splitRails: false }],
  parts: [{ id: 'PS1', kind: 'bench-supply', spot: [1, -6.6] }],
  wires: [],
  memories: {},
  meters: [],
  notes: [],
  switches: {},
};
