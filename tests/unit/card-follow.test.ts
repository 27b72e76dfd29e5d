/** Whoever does just what the card says next ends with every byte written, and is told when a press wrote something else. */
import { describe, expect, test } from 'vitest';
import { isWritten, nextMove, polesAt, refOf, sayPress, stepNow } from '../../client/panel/build/card-follow.ts';
import { sayEffort, sayTime } from '../../client/panel/build/card-list.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { type MemoryCard, memoryChoices, programmingCard, proveTable, type Simulation, type WriteReport } from '../../sim-core/index.ts';
import { sayWritten } from '../../sim-core/text/choices.ts';
import { hex } from '../../sim-core/units/hex.ts';
import { start } from '../support/bench.ts';

const erased = (id: string): Plan => ({ ...demoPlan(id)!, memories: {} });
function cardOf(plan: Plan): MemoryCard {
  const cards = programmingCard(plan);
  if (!cards.ok) throw new Error(cards.failure.says);
  expect(cards.value).toHaveLength(1);
  return cards.value[0]!;
}

/** Does the next move as it is said, once; what was done. */
function doNext(bench: Simulation, card: MemoryCard, switches: Plan['switches']): string {
  const move = nextMove(card, switches, bench.plan().memories, bench.readings());
  if (move.do === 'supply') bench.act({ do: 'set', part: move.part, pole: 0, closed: true });
  if (move.do === 'poles') bench.act({ do: 'set', ...move.poles[0]! });
  if (move.do === 'press') {
    bench.act({ do: 'press', part: move.part });
    bench.wait(0.1);
    bench.act({ do: 'release', part: move.part });
  }
  bench.wait(20e-3);
  return move.do;
}

describe('following the card', () => {
  const plan = erased('wind-vane');
  const card = cardOf(plan);

  test('writes every byte with the moves that the card counts, and the bench is then proven', () => {
    const bench = start(plan, { seed: 3 });
    const done: string[] = [];
    for (let what = doNext(bench, card, plan.switches); what !== 'nothing' && done.length < 200; what = doNext(bench, card, plan.switches))
      done.push(what);
    expect(done[0]).toBe('supply');
    expect(done.filter((d) => d === 'press')).toHaveLength(card.steps.length);
    expect(done.filter((d) => d === 'poles')).toHaveLength(card.flips + card.toWrite.length + polesLeftHigh(card));
    expect(stepNow(card, bench.plan().memories)).toBe(card.steps.length);
    expect(proveTable(bench.plan())).toMatchObject({ ok: true, value: { rows: 16, right: 16 } });
  });

  /** Poles that stand otherwise after the last byte than they have to for reading. */
  const polesLeftHigh = (c: MemoryCard) => {
    const last = polesAt(c, plan.switches, c.steps.length - 1);
    return c.toRead.filter((p) => last.find((q) => q.part === p.part && q.pole === p.pole)?.closed !== p.closed).length;
  };

  test('rings the supply, a pole with both its legs, or the button', () => {
    const bench = start(plan, { seed: 3 });
    const rung: string[] = [];
    for (let what = ''; what !== 'press'; what = doNext(bench, card, plan.switches)) {
      const ref = refOf(nextMove(card, plan.switches, bench.plan().memories, bench.readings()));
      rung.push(`${ref?.kind} ${ref?.id}`);
    }
    expect(rung).toEqual(['part PS1', 'pole S2.1', 'pole S3.8', 'part S4']);
  });

  test('a step is open until its own byte is in', () => {
    const [first] = card.steps;
    expect(isWritten({}, first!)).toBe(false);
    const at = hex(first!.address, 3);
    const byte = hex(first!.byte, 2);
    expect(isWritten({ [card.memory]: { [at]: byte } }, first!)).toBe(true);
  });

  test('a press that spoils a byte which was in is told, and so is what it wrote where the button chattered', () => {
    const bench = start(plan, { seed: 3 });
    while (doNext(bench, card, plan.switches) !== 'press');
    const before = stepNow(card, bench.plan().memories);
    expect(before).toBe(1);
    const data = card.steps[0]!.moves[0]!;
    bench.act({ do: 'set', ...data, closed: !data.closed });
    const knocks = bench.events.length;
    bench.act({ do: 'press', part: card.button });
    bench.wait(0.1);
    bench.act({ do: 'release', part: card.button });
    const writes = bench.events.slice(knocks);
    const [first] = card.steps;
    const says = new RegExp(`^[0-9A-F]{2} was written, but the card asks for ${hex(first!.byte, 2)} at 0x${hex(first!.address, 3)}\\.`);
    expect(sayPress(card, before, stepNow(card, bench.plan().memories), writes)).toMatch(says);
    const knocked = { ...writes[0]!, outcome: 'ignored' as const, faults: [{ fault: 'busy' as const }] };
    expect(sayPress(card, before, 0, [...writes, knocked])).toMatch(says);
    expect(sayPress(card, 0, 1, writes)).toBe('');
  });

  test('the effort is said with what is proven of it', () => {
    expect(card.exact).toBe(true);
    expect(sayEffort(card)).toMatch(
      new RegExp(`^${card.steps.length} bytes, ${card.flips} switch moves \\(proven the fewest; in address order`),
    );
    // rows whose byte reads right while it is erased need no writing, and that is said
    expect(sayEffort(card, card.steps.length)).not.toContain('other');
    expect(sayEffort(card, card.steps.length + 4)).toMatch(/ The other 4 rows are already right\.$/);
    expect(sayEffort({ ...card, exact: false, atLeast: card.flips - 4 })).toContain('at most 4 more than the fewest');
    expect([sayTime(60), sayTime(600)]).toEqual(['60 s', '10 min']);
  });
});

describe('what a press wrote', () => {
  const report = (some: Partial<WriteReport>): WriteReport => ({
    what: 'write',
    part: 'U1',
    time: 0,
    outcome: 'stored',
    faults: [],
    address: { value: 3, unknown: 0, bits: 11 },
    data: { value: 0x5a, unknown: 0 },
    guaranteedLow: 5e-7,
    maximumLow: 6e-7,
    times: [],
    ...some,
  });
  const step = { address: 3, byte: 0x5a };
  test('just what was asked for needs no word', () => expect(sayWritten(report({}), step)).toBeUndefined());
  test.each<[Partial<WriteReport>, RegExp]>([
    [
      { address: { value: 5, unknown: 0, bits: 11 } },
      /^The byte went to address 0x005, but the card asks for 5A at 0x003\..*0x005 now holds 5A\.$/,
    ],
    [{ data: { value: 0x5b, unknown: 0 } }, /^5B was written, but the card asks for 5A at 0x003\./],
    [{ outcome: 'ignored', faults: [{ fault: 'output-enable-low' }] }, /^Nothing was stored: \/OE was low: close its switch first\.$/],
    [
      { outcome: 'uncertain', faults: [{ fault: 'pulse-short', measured: 4e-8, limit: 1e-7, source: 's' }] },
      /^5A at 0x003 is uncertain: the pulse was too short\./,
    ],
    [{ data: { value: 0x5a, unknown: 1 } }, /^5\? was written/],
  ])('%j', (some, says) => expect(sayWritten(report(some), step)).toMatch(says));
});

describe('memories for a wish', () => {
  const of = (inputs: number, byHand: boolean) => memoryChoices({ inputs: Array.from({ length: inputs }, (_, i) => `a${i}`), byHand });
  test('those that are too small say by how much', () => {
    const all = of(12, false);
    expect(all.find((m) => m.kind === 'eeprom-2kx8')?.refusal).toBe('11 address pins, and the table has 12 inputs');
    expect(all.find((m) => m.kind === 'eeprom-8kx8')?.refusal).toBeUndefined();
  });
  test('those that no hand can write say so only where a hand shall', () => {
    expect(of(4, true).find((m) => m.kind === 'mask-rom-2kx8')?.refusal).toMatch(/by hand/);
    expect(of(4, false).find((m) => m.kind === 'mask-rom-2kx8')?.refusal).toBeUndefined();
  });
});
