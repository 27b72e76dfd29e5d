/** The build sheet: everything on the bench stands on it once, in building order, and its measurements tell a good bench from a bad one. */
import { describe, expect, test } from 'vitest';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import { type BuildSheet, keepsLimits, type PowerCheck, sheetFor } from '../../sim-core/index.ts';
import { planOf } from '../support/bench.ts';

function sheetOf(plan: Plan): BuildSheet {
  const sheet = sheetFor(plan);
  if (!sheet.ok) throw new Error(sheet.failure.says);
  return sheet.value;
}
const vane = demoPlan('wind-vane')!;
const vaneSheet = sheetOf(vane);
const sectionOf = (id: string) => vaneSheet.wiring.find((s) => s.lines.some((l) => l.id === id))?.section;
const wireBetween = (a: string, b: string) => vane.wires.find((l) => [l.from, l.to].sort().join() === [a, b].sort().join())!.id;
const failing = (plan: Plan): PowerCheck[] => sheetOf(plan).checks.filter((c) => !keepsLimits(c));

describe.each(DEMO_PLANS.map((d) => [d.id, d.plan] as const))('%s', (_, plan) => {
  const sheet = sheetOf(plan);

  test('every part, board and wire is in the parts list once, and every part and wire in the wiring list once', () => {
    const things = [...plan.boards, ...plan.parts, ...plan.wires].map((t) => t.id).sort();
    expect(sheet.parts.flatMap((l) => l.ids).sort()).toEqual(things);
    for (const l of sheet.parts) expect(l.quantity).toBe(l.ids.length);
    const boards = plan.boards.map((b) => b.id);
    expect(
      sheet.wiring
        .flatMap((s) => s.lines.map((l) => l.id))
        .concat(boards)
        .sort(),
    ).toEqual(things);
  });

  test('the chips come last', () => {
    expect(sheet.wiring.map((s) => s.section).slice(0, 2)).toEqual(['power', 'memory']);
    expect(sheet.wiring.at(-1)?.section).toBe('chips');
    expect(sheet.wiring.at(-1)?.lines.every((l) => /^U\d/.test(l.id))).toBe(true);
  });
});

describe('the wiring list', () => {
  test('puts each wire where it belongs', () => {
    expect(sectionOf(wireBetween('PS1.+', '+j1'))).toBe('power');
    expect(vaneSheet.wiring.find((s) => s.section === 'inputs')?.lines.some((l) => l.says === 'S1, pole 4 (G0) to U1, pin 8 (A0)')).toBe(
      true,
    );
    expect(vaneSheet.wiring.find((s) => s.section === 'outputs')?.lines.some((l) => l.says === 'U2, pin 14 (1Y3) to LED1 (N)')).toBe(true);
    expect(vaneSheet.wiring.find((s) => s.section === 'writing')?.lines.some((l) => /U1, pin 21 \(\/WE\)$/.test(l.says))).toBe(true);
    expect(vaneSheet.wiring.find((s) => s.section === 'writing')?.lines.some((l) => l.says === 'S3, pole 8 (data) to U1, pin 9 (D0)')).toBe(
      true,
    );
    expect(vaneSheet.wiring.find((s) => s.section === 'enables')?.lines.map((l) => l.says)).toEqual(['− rail to U1, pin 18 (/CE)']);
  });
});

describe('the parts list', () => {
  test('counts what is alike, with rings of resistors read from the one that comes first', () => {
    // IEC 60062: brown 1, black 0, orange 10^3, gold 5 %
    expect(vaneSheet.parts).toContainEqual(
      expect.objectContaining({ value: '10 kΩ', tolerance: 5, bands: ['brown', 'black', 'orange', 'gold'] }),
    );
    expect(vaneSheet.parts.find((l) => l.title.startsWith('LED'))?.quantity).toBe(8);
  });
});

describe('the measurements', () => {
  test('a good bench keeps all of them', () => {
    expect(failing(vane)).toEqual([]);
    expect(vaneSheet.checks.map((c) => c.when)).toEqual(
      [...vaneSheet.checks.map((c) => c.when)].sort((a, b) => ORDER.indexOf(a) - ORDER.indexOf(b)),
    );
  });
  const ORDER = ['off', 'chips out', 'chips in'];
  const add = (from: string, to: string): Plan => ({ ...vane, wires: [...vane.wires, { id: 'X1', from, to, colour: 'red' }] });
  const drop = (id: string): Plan => ({ ...vane, wires: vane.wires.filter((l) => l.id !== id) });

  test('a wire from plus to minus is a short, told before the supply is on', () => {
    const [first] = failing(add('+j20', '-j20'));
    expect(first).toMatchObject({ when: 'off', unit: 'Ω' });
    expect(first!.expects).toBeLessThan(1);
  });

  test('a memory without its plus wire has no supply at its empty place', () => {
    const wire = vane.wires.find((l) => l.to === 'j3' && l.colour === 'red')!;
    expect(failing(drop(wire.id)).map((c) => c.says)).toContain('supply of U1, at its empty place');
  });

  test('an address pin that hangs on plus is told', () => {
    expect(failing(add('+a40', 'b10')).map((c) => c.says)).toEqual(['A0 of U1 (G0), switch open']);
  });

  test('a bench without anything between its rails reads as open', () => {
    const bare = sheetOf(
      planOf(`board-63 B1
        bench-supply PS1
        wire W1 red from PS1.+ to +j1
        wire W2 black from PS1.- to -j1`),
    );
    expect(bare.checks[0]).toMatchObject({ when: 'off', red: '+j1', black: 'PS1.-' });
    expect(bare.checks[0]!.expects).toBeUndefined();
  });
});

describe('the cautions', () => {
  const all = (plan: Plan) => sheetOf(plan).cautions.join('\n');
  test('name what is on the bench and nothing else', () => {
    expect(all(vane)).toContain('Set the supply to 5 V and its current limit to 500 mA');
    expect(all(vane)).toContain('data sheets of your actual parts');
    expect(all(vane)).not.toMatch(/eraser|window|writer/);
    const uv = { ...vane, parts: vane.parts.map((p) => (p.id === 'U1' ? { ...p, kind: 'uv-eprom-2kx8' } : p)) };
    expect(all(uv)).toMatch(/U1: light through the window erases it/);
    expect(all(uv)).toMatch(/U1: it is programmed with a voltage that no other part here withstands/);
  });
});

test('a relay and a motor stand on the sheet as parts, with their cautions, and are no chips', () => {
  const sheet = sheetOf(
    planOf(`board-63 B1
      bench-supply PS1 5 with amps 2
      wire WP from PS1.+ to +a1
      wire WN from PS1.- to -a1
      relay K1 at e20
      wire W1 from a20 to +a5
      wire W2 from j20 to -a20
      dc-motor M1
      wire W3 from M1.+ to a27
      wire W4 from a23 to +a22
      wire W5 from M1.- to -a30`),
  );
  expect(sheet.parts.filter((l) => /Relay|motor/.test(l.title)).map((l) => [l.value, l.ids])).toEqual([
    ['5 V, 125 Ω', ['K1']],
    ['3 V, stall 800 mA', ['M1']],
  ]);
  const cautions = sheet.cautions.join('\n');
  expect(cautions).toMatch(
    /K1, M1: a winding that is switched off [\s\S]*K1: switch low voltages only\. Mains [\s\S]*M1: a motor that is held/,
  );
  expect(cautions).not.toContain('static discharge');
  expect(sheet.checks.flatMap((c) => (JSON.stringify(c).includes('K1') ? [c] : []))).toEqual([]);
});
