/** The search for the one edit that makes every row right, asked of planted mistakes: is it found, is it the same thing, how long does it take? */
import { expect, test } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { shownDifferences } from '../../sim-core/faults/shown-rows.ts';
import { apply, asMeant, ledsOfOutput } from '../../sim-core/index.ts';
import { findRepairs, type Repair } from '../../sim-core/repair/search.ts';
import { type Planted, plantedFault, shownBy } from '../support/planted-fault.ts';
import { isTouched } from '../support/same-repair.ts';

const FULL = process.env.TRIALS === 'full';
const first = Number(process.env.FROM ?? 1);
const count = FULL ? Number(process.env.COUNT ?? 8) : 1;
const kinds = FAULT_KINDS.filter((k, i) => (FULL ? (process.env.KIND?.split(',').includes(k.kind) ?? true) : i % 5 === 0));
/** KIND=wire-missing,bit-wrong: these alone. MEANT=1: the plan as meant is known */
const meant = process.env.MEANT === '1';

interface Outcome {
  readonly kind: string;
  readonly found: boolean;
  /** repairs after which some row of the table is wrong all the same */
  readonly wrong: number;
  /** the place of the first repair that touches what was planted, or leaves the same circuit as was meant; 0: none */
  readonly same: number;
  /** of the processor [ms]: the machine may have other things to do */
  readonly time: number;
  readonly tried: number;
  readonly about: string;
}

function repaired({ bench, fault, plan, row, led }: Planted): Outcome {
  const asked: Plan = meant ? { ...plan, meant: asMeant(bench.plan).meant } : plan;
  const begun = process.cpuUsage();
  const search = findRepairs(asked);
  const time = process.cpuUsage(begun).user / 1000;
  const about = `${fault.id} on ${bench.name}, row ${row}, ${led ?? 'LED gone'}`;
  if (!search.ok) return { kind: fault.kind, found: false, wrong: 0, same: 0, time, tried: 0, about: `${about}: ${search.failure.says}` };
  const { repairs, tried } = search.value;
  const outputs = plan.wanted?.outputs ?? [];
  const isFree = (at: string, of: number) =>
    outputs.some((o, bit) => ledsOfOutput(bench.plan, o).includes(at) && ((plan.wanted?.dontCare?.[of] ?? 0) >> bit) & 1);
  const isWrong = ({ change }: Repair) =>
    shownDifferences(bench.shown, shownBy(apply(plan, change), bench.inputs)).some((d) => bench.asked.has(d.led) && !isFree(d.led, d.row));
  const wrong = repairs.filter(isWrong).length;
  const same = repairs.findIndex((r) => isTouched(bench, fault, plan, r)) + 1;
  return {
    kind: fault.kind,
    found: repairs.length > 0,
    wrong,
    same,
    time,
    tried,
    about: `${about}: ${repairs.map((r) => `${r.kind} ${r.things.map((t) => t.id).join('+')}`).join(', ') || 'none'}`,
  };
}

test('planted mistakes are repaired', () => {
  const all: Outcome[] = [];
  for (const kind of kinds)
    for (let seed = first; seed < first + count; seed++) {
      const planted = plantedFault(kind, seed);
      if (planted) all.push(repaired(planted));
    }
  const times = (of: readonly Outcome[]) => of.map((o) => o.time).sort((a, b) => a - b);
  if (FULL) {
    const line = (name: string, of: readonly Outcome[]) =>
      `| ${name.padEnd(24)} | ${[of.length, of.filter((o) => o.found).length, of.filter((o) => o.same === 1).length, of.filter((o) => o.same > 0).length, Math.round(times(of)[of.length >> 1] ?? 0), Math.round(times(of).at(-1) ?? 0)].map((n) => String(n).padStart(7)).join(' | ')} |`;
    console.log(
      `\nseeds ${first} to ${first + count - 1}${meant ? ', plan as meant known' : ''}\n| kind                     |       n |   found | same 1st | among 3 | median ms | most ms |`,
    );
    for (const { kind } of kinds)
      console.log(
        line(
          kind,
          all.filter((o) => o.kind === kind),
        ),
      );
    console.log(line('all', all));
    if (process.env.LIST)
      for (const o of all)
        console.log(`${o.found ? 'found' : 'NOT FOUND'}, same ${o.same}, ${o.time.toFixed(0)} ms, ${o.tried} tried: ${o.about}`);
  }
  expect(all.length).toBeGreaterThan(0);
  expect(all.filter((o) => o.wrong > 0).map((o) => o.about)).toEqual([]);
});
