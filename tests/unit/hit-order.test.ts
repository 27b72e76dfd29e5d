/** What takes the pointer first: controls and LEDs before wires, wires and all metal before the marks of findings, which stand beside things. */
// @vitest-environment happy-dom
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeFindingMarks } from '../../client/bench/finding-marks.ts';
import { Drawing, inOrder } from '../../client/scene/drawing.ts';
import { overlap } from '../../client/scene/geometry.ts';
import { Highlights } from '../../client/scene/highlights.ts';
import { layOutLayers, makeSvgLayers } from '../../client/scene/svg-layers.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import type { SaidFinding } from '../../client/worker/protocol.ts';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { FAULT_KINDS } from '../../sim-core/faults/catalogue.ts';
import { faultsOf } from '../../sim-core/faults/fault.ts';
import { faultBench } from '../../sim-core/faults/fault-bench.ts';
import { apply, type Ref } from '../../sim-core/index.ts';
import { diagnosisBenches } from '../support/diagnosis-benches.ts';
import { hitList, pressedAt } from '../support/hit-list.ts';
import { randomBench } from '../support/random-bench.ts';

const CONTROLS = '[role=switch], [role=button][data-led]:not(.segment), .push-button-top';
/** Of all things so many have a mark: more than a bench ever has. */
const EVERY = 5;
const quiet = { set() {}, press() {}, release() {}, ask() {}, open() {} };

const found = (at: Ref): SaidFinding =>
  ({
    key: `${at.kind} ${at.id}`,
    code: 'led/over-current',
    severity: 'fault',
    says: ['Something is wrong.'],
    at,
    also: [],
    fixes: [],
  }) as never;

/** The bench as it is drawn, with a mark at these things. */
function drawn(plan: Plan) {
  const model = makeBenchModel(plan);
  const drawing = new Drawing(model, quiet);
  const [layers, marks] = [makeSvgLayers(), makeFindingMarks()];
  layOutLayers(layers, inOrder(drawing.layers), marks);
  const picks = new Highlights(model, drawing, { ...layers, all: layers.world, wires: drawing.layers.wires });
  drawing.name(1, true);
  marks.place(
    (ref) => picks.where(ref),
    () => drawing.markRoom(),
  );
  const things: Ref[] = [
    ...plan.parts.map((p): Ref => ({ kind: 'part', id: p.id })),
    ...model.specimens.flatMap((s) => s.legs.map((l): Ref => ({ kind: 'pin', id: `${s.part.id}.${l.pin.pin}` }))),
    ...plan.wires.map((w): Ref => ({ kind: 'wire', id: w.id })),
  ].filter((_, i) => i % EVERY === 0);
  return { drawing, layers, marks, things };
}

/** Every control is hit where a hand presses it, wherever marks are; none of them lies on what is read or worked. */
function holds(plan: Plan, crowded = false): number {
  const { drawing, layers, marks, things } = drawn(plan);
  const controls = [...layers.world.querySelectorAll(CONTROLS)];
  const ends = [...drawing.paths.values()].flatMap((p) => [p[0]!, p.at(-1)!]);
  const legs = [...drawing.legSpots.values()].flatMap((spots) => [...spots.values()]);
  marks.show(things.map(found));
  expect(marks.targets.childElementCount).toBe(Math.min(40, things.length));
  const hit = hitList(layers.world);
  for (const c of controls) {
    const is = hit(pressedAt(c));
    // by chance one control may lie on another
    expect(c.contains(is ?? null) || (crowded && is?.closest(CONTROLS) != null), c.getAttribute('aria-label')!).toBe(true);
  }
  for (const spot of [...ends, ...legs]) expect(hit(spot)?.classList.contains('mark-target')).not.toBe(true);
  const { never } = drawing.markRoom();
  for (const mark of marks.root.children) {
    const [x = 0, y = 0] = mark
      .getAttribute('transform')!
      .match(/-?[\d.]+/g)!
      .map((n) => Number(n) / 20);
    const seen = { x: x - 0.4, y: y - 0.4, width: 0.8, height: 0.8 };
    expect(
      never.reduce((sum, b) => sum + overlap(seen, b), 0),
      mark.getAttribute('aria-label')!,
    ).toBeLessThan(0.05);
  }
  return controls.length;
}

describe('every control is hit where it is pressed', () => {
  for (const { id, plan } of DEMO_PLANS) test(`on ${id}`, () => expect(holds(plan)).toBeGreaterThan(5));

  test('on generated benches with mistakes', () => {
    for (const [i, { plan }] of diagnosisBenches().slice(-4).entries()) {
      const bench = faultBench(plan);
      if (!bench.ok) throw new Error(bench.failure.says);
      for (const kind of FAULT_KINDS.filter((_, k) => k % 16 === 4 * i)) {
        const faults = faultsOf(bench.value, [kind]);
        const fault = faults[Math.floor(faults.length / 2)];
        if (fault) expect(holds(apply(plan, fault.change)), `${kind.kind} at ${fault.kind}`).toBeGreaterThan(3);
      }
    }
  });

  test('on any bench, whatever wires lie over it', () => {
    fc.assert(
      fc.property(randomBench(20, 60), (plan) => holds(plan, true) > 0),
      { numRuns: 5 },
    );
  });
});
