/** Variants of a bench of fifty parts, 32 settings and 40 holes each: beside every one simulated by itself; and live edits, beside the bench opened again. */
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { faultsOf } from '../../sim-core/faults/fault.ts';
import { faultBench } from '../../sim-core/faults/fault-bench.ts';
import { apply, buildPlan, type Change, type Simulation, simulate } from '../../sim-core/index.ts';
import { type BenchSignature, blankSignature, type ProbePoints, type SwitchRows } from '../../sim-core/run/variants/probe-points.ts';
import { signature } from '../../sim-core/run/variants/signature.ts';
import { stillSignature } from '../../sim-core/run/variants/still-signature.ts';
import { variant } from '../../sim-core/run/variants/variant.ts';
import { contents, manyMemories, still } from './benches.ts';
import { inTurns, middle, ms, printTable, times, took, value } from './measure.ts';
import { keep } from './report.ts';

const SETTINGS = 32;
const HOLES = 40;
/** So many mistakes are measured, taken evenly from all. */
const TRIED = 60;

function fiftyParts(): Plan {
  const outputs = 16;
  const plan = value(
    buildPlan({
      title: 'Fifty parts',
      inputs: Array.from({ length: 10 }, (_, i) => `in ${i}`),
      outputs: Array.from({ length: outputs }, (_, i) => ({ name: `out ${i}` })),
      rows: Array.from({ length: 1024 }, (_, r) => (Math.imul(r + 1, 2654435761) >>> 9) & (2 ** outputs - 1)),
      memory: 'eeprom-2kx8',
      byHand: false,
      show: 'leds',
      buffered: true,
      amps: 4e-3,
    }),
  );
  const supplies = plan.parts.filter((p) => p.kind === 'bench-supply').map((p) => [p.id, [true]]);
  return { ...plan, switches: { ...plan.switches, ...Object.fromEntries(supplies) } };
}

function asked(base: Simulation, plan: Plan): { rows: SwitchRows; points: ProbePoints } {
  const poles = base.circuit.contacts.filter((c) => !c.contact.momentary).map((c) => ({ part: c.placed.part.id, pole: c.pole }));
  const rows = Uint32Array.from({ length: SETTINGS }, (_, r) => Math.imul(7 * r + 3, 2654435761) >>> (32 - poles.length));
  return {
    rows: { poles, rows },
    points: { leds: base.circuit.leds.map((l) => l.id), holes: plan.wires.map((w) => w.to).slice(0, HOLES) },
  };
}

/** By the event engine, on a simulation of its own: every pole, and the LEDs and holes of every setting. */
function fromScratch(plan: Plan, rows: SwitchRows, points: ProbePoints, into: BenchSignature): void {
  const sim = value(simulate(plan, { still: true, bounce: false }));
  signature({ plan, circuit: sim.circuit, bench: () => sim, blocks: () => undefined }, rows, points, into);
}

/** Holes whose nets something holds in every row: where one floats, voltages are what leakage and the last digits make of them. */
function held(plan: Plan, { poles, rows }: SwitchRows, { holes }: ProbePoints): boolean[] {
  const sim = value(simulate(plan, { still: true, bounce: false }));
  const firm = holes.map(() => true);
  for (const row of rows) {
    for (const [i, { part, pole }] of poles.entries()) sim.act({ do: 'set', part, pole, closed: ((row >>> i) & 1) === 1 });
    const { nets } = sim.readings();
    for (const [i, hole] of holes.entries()) {
      const drive = nets[sim.circuit.interconnect.atPoint(hole)?.net.index ?? -1]?.drive;
      if (drive === 'floating' || drive === 'unknown') firm[i] = false;
    }
  }
  return firm;
}

/** The largest difference of a voltage [V]; throws if an LED looks otherwise. */
function worst(a: BenchSignature, b: BenchSignature, firm: readonly boolean[], name: string): number {
  if (a.leds.some((look, i) => look !== b.leds[i])) throw new Error(`${name}: an LED looks otherwise`);
  return Math.max(
    ...Array.from(a.volts, (v, i) => (firm[i % firm.length] && !Number.isNaN(v) ? Math.abs(v - (b.volts[i] ?? Number.NaN)) : 0)),
  );
}

interface Tried {
  readonly id: string;
  readonly change: Change;
  /** without a circuit */
  readonly isStill: boolean;
}

function measureGroup(name: string, base: Simulation, tried: readonly Tried[], rows: SwitchRows, points: ProbePoints): string[] {
  const plan = base.plan();
  const [ours, theirs] = [blankSignature(rows, points), blankSignature(rows, points)];
  let most = 0;
  for (const { id, change } of tried.filter((_, i) => i % 4 === 0)) {
    const after = apply(plan, change);
    signature(value(variant(base, change)), rows, points, ours);
    fromScratch(after, rows, points, theirs);
    most = Math.max(most, worst(ours, theirs, held(after, rows, points), id));
  }
  const each = () => {
    for (const { change } of tried) signature(value(variant(base, change)), rows, points, ours);
  };
  const few = tried.filter((_, i) => i % 8 === 0);
  const fewAnew = () => {
    for (const { change } of few) fromScratch(apply(plan, change), rows, points, theirs);
  };
  const [mine, byItself] = inTurns(
    [
      { work: each, times: 3 },
      { work: fewAnew, times: 1 },
    ],
    5,
  );
  const [variantMs, fromScratchMs] = [mine / tried.length, byItself / few.length];
  keep(`variant, ${name}`, variantMs, 'ms', `${most.toExponential(1)} V`);
  keep(`simulated by itself, ${name}`, fromScratchMs);
  return [name, `${tried.length}`, ms(variantMs), ms(fromScratchMs), times(fromScratchMs / variantMs), most.toExponential(1)];
}

export function benchVariants(): void {
  const plan = fiftyParts();
  const base = value(simulate(plan, { still: true, bounce: false }));
  const { rows, points } = asked(base, plan);
  const bench = value(faultBench(plan));
  const into = blankSignature(rows, points);
  const some = (bytes: boolean): Tried[] => {
    const faults = faultsOf(
      bench,
      FAULT_KINDS.filter((k) => (k.of === 'contents') === bytes),
    ).filter((f) => variant(base, f.change).ok);
    return faults
      .filter((_, i) => i % Math.ceil(faults.length / TRIED) === 0)
      .map(({ id, change }) => {
        const made = value(variant(base, change));
        const blocks = made.blocks();
        return { id, change, isStill: blocks !== undefined && stillSignature(blocks, made.plan, rows, points, into).length === 0 };
      });
  };
  const wiring = some(false);
  printTable(
    `A variant of a bench of ${plan.parts.length} parts: ${SETTINGS} settings, ${HOLES} holes, ${points.leds.length} LEDs, no resistances`,
    [
      ['', 'tried', 'ms each', 'simulated by itself', '', 'differs by at most, V'],
      measureGroup('other bytes', base, some(true), rows, points),
      measureGroup(
        'other wiring',
        base,
        wiring.filter((t) => t.isStill),
        rows,
        points,
      ),
      measureGroup('other wiring that needs the event engine', base, wiring.filter((t) => !t.isStill).slice(0, 8), rows, points),
    ],
  );
  benchLiveEdits();
}

/** A wire moved to another hole and back, a byte changed and changed back: until rest, with the plan and all readings. */
function benchLiveEdits(): void {
  const rows = [['a live edit, 8 memories', 'ms', 'the bench opened again', '', 'differs by at most, V']];
  const plan = manyMemories(8, contents);
  const moved = (from: string, to: string): readonly [Change, Change] => {
    const wire = plan.wires.find((w) => w.to === from);
    if (!wire) throw new Error(`no wire ends at ${from}`);
    const after = { ...wire, to };
    return [
      { op: 'replace', list: 'wires', before: wire, after },
      { op: 'replace', list: 'wires', before: after, after: wire },
    ];
  };
  const image = still(plan).plan().memories.U1;
  const edits: readonly (readonly [string, Change, Change])[] = [
    ['a wire in its net', ...moved('B1:a51', 'B1:c51')],
    ['a wire to another net', ...moved('B2:a12', 'B2:a5')],
    [
      'a byte',
      { op: 'set', field: 'memories', id: 'U1', before: image, after: { ...image, '000': '5A'.repeat(16) } },
      { op: 'set', field: 'memories', id: 'U1', before: { ...image, '000': '5A'.repeat(16) }, after: image },
    ],
  ];
  for (const [name, there, back] of edits) {
    const sim = still(plan);
    const look = (of: Simulation) => [of.plan(), of.readings()] as const;
    const spent: number[] = [];
    for (let i = 0; i < 40; i++)
      spent.push(
        took(() => {
          value(sim.act({ do: 'edit', change: i % 2 === 0 ? there : back }));
          look(sim);
        }),
      );
    value(sim.act({ do: 'edit', change: there }));
    const [now, { nets }] = look(sim);
    const opened = Array.from({ length: 12 }, () => took(() => look(still(now))));
    const most = Math.max(
      ...still(now)
        .readings()
        .nets.map((net, k) => Math.abs(net.volts - (nets[k]?.volts ?? Number.NaN))),
    );
    const [edit, again] = [middle(spent.slice(10)), middle(opened)];
    keep(`live edit of ${name}, 8 memories`, edit, 'ms', `${most.toExponential(1)} V`);
    keep(`8 memories opened again after an edit of ${name}`, again);
    rows.push([name, ms(edit), ms(again), times(again / edit), most.toExponential(1)]);
  }
  printTable('Live edits', rows);
}
