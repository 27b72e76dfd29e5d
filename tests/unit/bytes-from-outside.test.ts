/** Bytes put into a memory at once: all of them arrive, whatever the memory wakes up with, and one undo takes out what was put in. */
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { storeBytes } from '../../sim-core/document/edits/bytes.ts';
import { byteAt } from '../../sim-core/document/memory-rows.ts';
import { storeImage } from '../../sim-core/findings/store-table.ts';
import { apply, invert, rebase } from '../../sim-core/index.ts';
import { wholeImage } from '../../sim-core/logic/memory-image.ts';
import { MEMORY, start } from '../support/bench.ts';

const SIZE = 2048;
const edited = (text: string, change: (plan: Plan) => ReturnType<typeof storeImage>) => {
  const sim = start(text);
  const made = rebase(sim.plan(), change(sim.plan()));
  const done = sim.act({ do: 'edit', change: made });
  if (!done.ok) throw new Error(done.failure.says);
  return { made, sim };
};

test.each(['prom-2kx8', 'eeprom-2kx8', 'uv-eprom-2kx8', 'mask-rom-2kx8'])('an image with rows of FF is in a %s as it was given', (kind) => {
  const bytes = Uint8Array.from({ length: SIZE }, (_, at) => (at < 16 ? at : 0xff));
  const { sim } = edited(MEMORY.replace('eeprom-2kx8', kind), (plan) => storeImage(plan, 'U1', wholeImage(bytes)));
  const now = sim.plan().memories.U1;
  expect([0x00, 0x0f, 0x10, 0x7ff].map((at) => byteAt(now, at))).toEqual([0x00, 0x0f, 0xff, 0xff]);
});

describe('bytes that read as erased', () => {
  const held = `${MEMORY}memory U1 010 12\n`;
  test('are taken out again by an undo, though the bench has left their row out', () => {
    const { made, sim } = edited(held, (plan) => {
      const change = storeBytes({ plan } as Parameters<typeof storeBytes>[0], 'U1', SIZE, '010', 'FF');
      if (!change.ok) throw new Error(change.failure.says);
      return change.value;
    });
    expect(byteAt(sim.plan().memories.U1, 0x10)).toBe(0xff);
    sim.act({ do: 'edit', change: rebase(sim.plan(), invert(made)) });
    expect(byteAt(sim.plan().memories.U1, 0x10)).toBe(0x12);
  });
  test('leave the doubt about their neighbours alone', () => {
    const plan: Plan = { ...start(held).plan(), cells: { U1: { uncertain: { '025': '0F' } } } };
    const only = (byte: number) => Uint8Array.from({ length: SIZE }, (_, at) => (at === 0x20 ? byte : 0));
    const image = { bytes: only(0x34), given: only(0xff) };
    expect(apply(plan, storeImage(plan, 'U1', image)).cells).toEqual(plan.cells);
  });
});
