/** What the builder says of memories that are written by hand: notes that are true of their kind, and a name for what writes each of several. */
import { expect, test } from 'vitest';
import { WIRE_COLOURS } from '../../client/edit/builder.ts';
import type { Plan } from '../../shared/plan.ts';
import { type BuildRequest, buildPlan } from '../../sim-core/index.ts';

function built(wish: BuildRequest): Plan {
  const made = buildPlan(wish);
  if (!made.ok) throw new Error(made.failure.says);
  return made.value;
}

test('a static RAM is not built with bytes that it would have forgotten before its supply is on', () => {
  const wish = {
    title: 'Both',
    inputs: ['a', 'b'],
    outputs: [{ name: 'out' }],
    rows: [0, 0, 0, 1],
    memory: 'static-ram-2kx8',
    show: 'leds',
    buffered: true,
    amps: 2e-3,
  } satisfies Omit<BuildRequest, 'byHand'>;
  const loaded = buildPlan({ ...wish, byHand: false });
  expect(loaded.ok ? '' : loaded.failure.says).toMatch(/is volatile: it loses its bytes without supply.* by hand/);
  const plan = built({ ...wish, byHand: true });
  expect(plan.notes.join(' ')).toMatch(
    /^The memory is volatile: without supply it loses its bytes.*press and release the button\. To read/,
  );
  expect(plan.notes.join(' ')).not.toMatch(/FF|refuse/);
});

test('two memories that are written by hand have a button each with a name of its own, and the note speaks of both', () => {
  const plan = built({
    title: 'Wide',
    inputs: ['a', 'b'],
    outputs: Array.from({ length: 9 }, (_, i) => ({ name: `out ${i}` })),
    rows: [0, 1, 256, 511],
    memory: 'eeprom-2kx8',
    byHand: true,
    show: 'bar',
    buffered: true,
    amps: 2e-3,
  });
  expect(plan.parts.filter((p) => p.kind === 'push-button').map((p) => p.label)).toEqual(['write U1', 'write U2']);
  expect(plan.notes.join(' ')).toMatch(/^The memories are erased.* the memory's own data switches, press and release its button/);
  // a wire that is recoloured can be given its colour back
  expect(WIRE_COLOURS).toEqual(expect.arrayContaining([...new Set(plan.wires.map((l) => l.colour))]));
});
