/** What a first visit needs: examples that say what they teach, drawn small from the plans themselves; and tables begun in one act. */
// @vitest-environment happy-dom
import { describe, expect, test } from 'vitest';
import { partInHand, partPicture } from '../../client/edit/part-picture.ts';
import { partGroups } from '../../client/edit/part-search.ts';
import { placementPreview } from '../../client/edit/placement-preview.ts';
import { drawSmall, drawSmallPart } from '../../client/scene/small-drawing.ts';
import { layoutOf } from '../../client/state/bench-model.ts';
import { DEMO_PLANS } from '../../shared/demo-plans.ts';
import { blankTable, emptyBench, partLookup, tableOfWanted } from '../../sim-core/index.ts';

describe('the examples', () => {
  test('each says what it teaches, or says in its notes that it has a fault', () => {
    const faulty = DEMO_PLANS.filter(({ plan }) => plan.notes.some((n) => n.startsWith('This bench has a fault')));
    expect(faulty.length).toBeGreaterThan(3);
    expect(DEMO_PLANS.filter((d) => d.teaches === undefined)).toEqual(faulty);
    expect(new Set(DEMO_PLANS.flatMap((d) => d.teaches ?? [])).size).toBe(DEMO_PLANS.length - faulty.length);
  });

  test.for(DEMO_PLANS.map((d) => [d.id, d.plan] as const))(
    '%s is drawn small with all its parts and wires, and nothing in it can be touched or is spoken',
    ([, plan]) => {
      const svg = drawSmall(plan);
      expect(svg.querySelectorAll('.wire').length).toBe(plan.wires.length);
      expect(svg.querySelectorAll('.bodies > *').length).toBe(plan.parts.length);
      expect(svg.querySelectorAll('.board').length).toBe(plan.boards.length);
      expect(svg.getAttribute('aria-hidden')).toBe('true');
      expect(svg.querySelectorAll('[tabindex], [role], [aria-label], [data-part], [data-wire], title').length).toBe(0);
    },
  );

  test('one part of a plan is drawn alone', () => {
    const { plan } = DEMO_PLANS[0]!;
    expect(drawSmallPart(plan, 'U1')?.querySelectorAll('.board, .wire').length).toBe(0);
    expect(drawSmallPart(plan, 'U1')?.childElementCount).toBeGreaterThan(0);
    expect(drawSmallPart(plan, 'U99')).toBeUndefined();
  });
});

describe('a table of so many inputs and outputs', () => {
  test.for([
    [1, 1],
    [4, 2],
    [16, 16],
  ] as const)('%i and %i', ([inputs, outputs]) => {
    const made = blankTable(inputs, outputs);
    expect(made.ok).toBe(true);
    if (!made.ok) return;
    expect([made.value.inputs.length, made.value.outputs.length, made.value.rows.length]).toEqual([inputs, outputs, 2 ** inputs]);
    const names = [...made.value.inputs, ...made.value.outputs].map((l) => l.name);
    expect(new Set(names).size).toBe(names.length);
    // nothing is asked for yet
    expect(new Set(made.value.dontCare)).toEqual(new Set([2 ** outputs - 1]));
    expect(tableOfWanted(made.value).ok).toBe(true);
  });

  test.for([
    [0, 1, 'A table here has 1 to 16 inputs, not 0.'],
    [17, 1, 'A table here has 1 to 16 inputs, not 17.'],
    [2, 1.5, 'A table here has 1 to 16 outputs, not 1.5.'],
  ] as const)('%d and %d are refused', ([inputs, outputs, says]) => {
    expect(blankTable(inputs, outputs)).toMatchObject({ ok: false, failure: { says } });
  });
});

describe('parts on offer', () => {
  const offers = partGroups('').flatMap((g) => g.offers);
  const empty = { plan: emptyBench, layout: layoutOf(emptyBench), kinds: partLookup };
  const context = { ...empty, layout: empty.layout.ok ? empty.layout.value : expect.fail() };

  test.for(offers.map((o) => [o.kind.id, o.placing] as const))(
    '%s has a picture, and is drawn in the hand as it would stand',
    ([, placing]) => {
      const picture = partPicture(placing);
      expect(picture?.querySelectorAll('path, rect, circle').length).toBeGreaterThan(0);
      expect(picture?.querySelectorAll('.board, .wire, [role], [tabindex]').length).toBe(0);
      const there = placementPreview(context, placing, [30, 10]);
      expect(there.refusal).toBeUndefined();
      const drawn = partInHand(there.placing, there.spots, [30, 10]);
      expect(drawn?.querySelectorAll('path, rect, circle').length).toBeGreaterThan(0);
      expect(drawn?.querySelectorAll('[role], [tabindex], [data-part]').length).toBe(0);
    },
  );
});
