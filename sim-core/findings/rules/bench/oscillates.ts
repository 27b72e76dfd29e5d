/** Chips that answer each other for ever: the bench was given up before it came to rest, and what it shows is one moment of many. */
import { RING } from '../../example-benches.ts';
import { defineRule } from '../../rule.ts';

export const benchOscillates = defineRule({
  code: 'bench/oscillates',
  severity: 'fault',
  reads: 'moment',
  look: ({ readings }) =>
    readings.endless
      ? [{ at: readings.endless.map((id) => ({ kind: 'part', id }) as const), data: { chips: readings.endless.length } }]
      : [],
  bad: { points: 'U1', bench: RING },
  good: { bench: RING.replace('=FFFE', '=FFFF') },
});
