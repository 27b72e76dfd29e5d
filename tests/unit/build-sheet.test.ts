/** The build sheet: everything on the bench stands on it once, in building order, and its measurements tell a good bench from a bad one. */
import { describe, expect, test } from 'vitest';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import type { Plan } from '../../shared/plan.ts';
import {
  type BuildSheet,
  checkLines,
  checksumsOf,
  type MeterCheck,
  programmingCard,
  type StageCheck,
  sayGood,
  sheetFor,
  storedImage,
} from '../../sim-core/index.ts';
import { planOf } from '../support/bench.ts';

function sheetOf(plan: Plan): BuildSheet {
  const sheet = sheetFor(plan);
  if (!sheet.ok) throw new Error(sheet.failure.says);
  return sheet.value;
}
const vane = demoPlan('wind-vane')!;
const vaneSheet = sheetOf(vane);
const stageOf = (id: string) => vaneSheet.stages.find((s) => s.steps.some((l) => l.id === id))?.stage;
const saysIn = (stage: string) => vaneSheet.stages.find((s) => s.stage === stage)!.steps.map((s) => s.says);
const checksOf = (sheet: BuildSheet): readonly StageCheck[] => sheet.stages.flatMap((s) => s.checks);
const wireBetween = (a: string, b: string) => vane.wires.find((l) => [l.from, l.to].sort().join() === [a, b].sort().join())!.id;
const wrong = (plan: Plan): string[] => checkLines(checksOf(sheetOf(plan)).filter((c) => c.drawnWrong)).map((l) => l.says);

describe.each(DEMO_PLANS.map((d) => [d.id, d.plan] as const))('%s', (_, plan) => {
  const sheet = sheetOf(plan);

  test('every part, board and wire is in the parts list once, and every part and wire in the wiring list once', () => {
    const things = [...plan.boards, ...plan.parts, ...plan.wires].map((t) => t.id).sort();
    expect(sheet.parts.flatMap((l) => l.ids).sort()).toEqual(things);
    for (const l of sheet.parts) expect(l.quantity).toBe(l.ids.length);
    const boards = plan.boards.map((b) => b.id);
    expect(
      sheet.stages
        .flatMap((s) => s.steps.map((l) => l.id))
        .concat(boards)
        .sort(),
    ).toEqual(things);
  });

  test('wires are numbered from 1 in each stage, in the order of its pictures, 16 to a picture at most', () => {
    for (const { steps, pictures } of sheet.stages) {
      const wires = steps.flatMap((s) => (s.put === 'wire' ? [s] : []));
      expect(wires.map((w) => w.number)).toEqual(wires.map((_, i) => i + 1));
      expect(pictures.flat()).toEqual(wires.map((w) => w.id));
      expect(Math.max(...pictures.map((p) => p.length))).toBeLessThanOrEqual(16);
    }
  });

  test('the chips come last', () => {
    expect(sheet.stages.map((s) => s.stage).slice(0, 2)).toEqual(['power', 'memory']);
    expect(sheet.stages.at(-1)?.stage).toBe('chips');
    expect(sheet.stages.at(-1)?.steps.every((l) => /^U\d/.test(l.id))).toBe(true);
  });

  test('says of no place that it is an otherwise empty row, and of a 7-segment display which segment', () => {
    for (const { steps } of sheet.stages)
      for (const s of steps) {
        expect(s.says).not.toContain('empty row');
        if (/ DS\d/.test(s.says)) expect(s.says).toMatch(/DS\d, pin \d+ \((segment [a-g]|DP|A\d+|K\d+|COM|segment DP)\)/);
      }
  });
});

describe('the stages', () => {
  test('have each wire where it belongs, with the pins of both ends', () => {
    expect(stageOf(wireBetween('PS1.+', '+j1'))).toBe('power');
    expect(saysIn('inputs')).toContain('S1, pole 4 (G0) to U1, pin 8 (A0)');
    expect(saysIn('outputs')).toContain('U2, pin 12 (1Y4) to LED1 anode (N)');
    expect(saysIn('outputs')).toContain('j38: to LED1 cathode (N); -j30: to − rail');
    expect(saysIn('writing')).toContain('R30 (pull-up) to U1, pin 21 (/WE)');
    expect(saysIn('writing')).toContain('S3, pole 5 (data) to U1, pin 13 (D3)');
    expect(saysIn('memory')).toContain('− rail to U1, pin 18 (/CE)');
    expect(saysIn('memory')).toContain('− rail to U1, pin 19 (A10)');
  });

  test('say which way round switches, buttons and chips stand', () => {
    const says = (id: string) => vaneSheet.stages.flatMap((s) => s.steps).find((s) => s.id === id)!.says;
    expect(says('S1')).toBe('pin 1 in B2:e9, the last pin across the trench in B2:f9; pole 1 on the left, numbers upright');
    expect(says('S4')).toBe('across the trench: B3:e3 and B3:f3 are one contact, B3:e5 and B3:f5 the other; a press connects the two');
    expect(says('U1')).toContain('notch to the left (row 1)');
  });

  test('put a bus together, in order of its pins', () => {
    const wires = vaneSheet.stages.find((s) => s.stage === 'inputs')!.steps.flatMap((s) => (s.put === 'wire' ? [s.says] : []));
    expect(wires.slice(4)).toEqual([0, 1, 2, 3].map((i) => `S1, pole ${4 - i} (G${i}) to U1, pin ${8 - i} (A${i})`));
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

describe('the checks', () => {
  const add = (from: string, to: string): Plan => ({ ...vane, wires: [...vane.wires, { id: 'X1', from, to, colour: 'red' }] });
  const drop = (id: string): Plan => ({ ...vane, wires: vane.wires.filter((l) => l.id !== id) });

  test('of a good bench are as its parts ask for', () => {
    for (const { plan } of DEMO_PLANS.filter((d) => !d.id.includes('dark') && !d.id.includes('nothing'))) expect(wrong(plan)).toEqual([]);
  });

  test('a wire from plus to minus is a short, told before the supply is on', () => {
    const first = checksOf(sheetOf(add('+j20', '-j20')))[0] as MeterCheck;
    expect(first).toMatchObject({ by: 'ohms', stage: 'power', drawnWrong: true });
    expect(first.expects).toBeLessThan(1);
  });

  test('a memory without its plus wire has no supply at its empty place', () => {
    const wire = vane.wires.find((l) => l.to === 'j5' && l.colour === 'red')!;
    expect(wrong(drop(wire.id))).toContain('supply of U1, at its empty place');
  });

  test('an address pin that hangs on plus is told', () => {
    expect(wrong(add('+a40', 'b12'))).toContain('U1 pin 8 (A0) is tied to plus');
  });

  test('megohms are asked for where nothing joins the rails: ten ohms do not pass', () => {
    const bare = sheetOf(
      planOf(`board-63 B1
        bench-supply PS1
        wire W1 red from PS1.+ to +j1
        wire W2 black from PS1.- to -j1`),
    );
    const first = checksOf(bare)[0] as MeterCheck;
    expect(first).toMatchObject({ by: 'ohms', red: '+j1', black: 'PS1.-' });
    expect(first.expects).toBeUndefined();
    expect(sayGood(first)).toBe('open, more than 2 MΩ');
  });

  test('a current has a band of its own: the limit of the supply does not pass', () => {
    const drawn = checksOf(vaneSheet).find((c) => c.by === 'amps') as MeterCheck;
    expect(drawn.least).toBeGreaterThan(5e-3);
    expect(drawn.most).toBeLessThan(0.1);
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

describe('the images', () => {
  test('of a loaded build have a file name, checksums, and how they get into the memory', () => {
    const [image] = sheetOf(demoPlan('ferry-ramp')!).images;
    expect(image).toMatchObject({ memory: 'U1', file: 'ferry-ramp-signals-u1.bin', bytes: 2048, how: 'by hand' });
    const { bytes } = storedImage(demoPlan('ferry-ramp')!.memories, {
      memory: 'U1',
      address: Array.from({ length: 11 }, (_, i) => `A${i}`),
    });
    expect(image!.checksums).toEqual(checksumsOf(bytes));
    expect(sheetOf(demoPlan('greenhouse-blank')!).images).toEqual([]);
  });

  test.each([
    ['uv-eprom-2kx8', /^Erase U1 under ultraviolet light .* cover the window/],
    ['prom-2kx8', /^U1 can be programmed only once/],
    ['mask-rom-2kx8', /^U1 gets its bytes when it is made/],
  ])('of a %s say how, and neither they nor the card speak of a button', (kind, says) => {
    const { parts, ...rest } = demoPlan('ferry-ramp')!;
    const plan = { ...rest, parts: parts.map((p) => (p.id === 'U1' ? { ...p, kind } : p)) };
    expect(sheetOf(plan).images[0]!.says).toMatch(says);
    const card = programmingCard(plan);
    expect(card.ok ? '' : card.failure.says).toMatch(/^U1 cannot be written by hand: [^.]*\. Load its image in one step\.$/);
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
  expect(checksOf(sheet).flatMap((c) => (JSON.stringify(c).includes('K1') ? [c] : []))).toEqual([]);
});
