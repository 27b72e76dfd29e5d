/** Tables that chance draws, of any polarity and with any load: every build is proven right on the solved bench, or is refused in a sentence. */
import fc from 'fast-check';
import { expect } from 'vitest';
import type { Plan } from '../../shared/plan.ts';
import { everyRow } from '../../sim-core/document/memory-rows.ts';
import { type BuildRequest, buildPlan, partKind, proveTable } from '../../sim-core/index.ts';
import { running } from '../support/any-build.ts';
import { randomRequest } from '../support/random-table.ts';
import { trial } from '../support/trial.ts';

const WORD = 8;
/** Resistors go in steps of E12: a fifth less, and nothing more but what rounding and a chip's drop leave. */
const [LEAST, MOST] = [0.78, 1.06];

/** The bench as it is once every byte is in it, worked out from the request alone. */
function withBytes(plan: Plan, { rows, outputs }: BuildRequest): Plan {
  const memories = plan.parts.filter((p) => partKind(p.kind)?.group === 'memory').map((p) => p.id);
  expect(memories).toHaveLength(Math.ceil(outputs.length / WORD));
  const byteAt = (row: number, m: number) =>
    outputs
      .slice(WORD * m, WORD * (m + 1))
      .reduce((byte, { activeLow }, bit) => byte | ((((rows[row]! >> (WORD * m + bit)) & 1) ^ (activeLow ? 1 : 0)) << bit), 0);
  const images = memories.map((id, m) => [id, everyRow(Uint8Array.from({ length: rows.length }, (_, row) => byteAt(row, m)))] as const);
  return { ...plan, memories: Object.fromEntries(images) };
}

/** Each LED's current in rows where it is lit, against what was asked of it; and the supply's in the row that lights most. */
function measure(plan: Plan, { inputs, rows, outputs, amps: all }: BuildRequest): string[] {
  const sim = running(plan);
  const switches = plan.parts.filter((p) => p.kind === 'dip-switch' && p.label?.startsWith('inputs'));
  const poles = switches.flatMap(({ id, params }) => Array.from({ length: Number(params?.poles) }, (_, pole) => ({ part: id, pole })));
  const off: string[] = [];
  const words = Array.from(rows);
  const ones = (w: number) => w.toString(2).replaceAll('0', '').length;
  const fullest = words.reduce((best, w, row) => (ones(w) > ones(words[best]!) ? row : best), 0);
  const lit = outputs.map((_, bit) => words.findIndex((w) => (w >> bit) & 1));
  for (const row of new Set([fullest, ...lit])) {
    if (row < 0) continue;
    // the highest input stands on the left
    for (const [k, pole] of poles.entries()) sim.act({ do: 'set', ...pole, closed: ((row >> (inputs.length - 1 - k)) & 1) === 1 });
    sim.wait(0.1);
    const { leds, supplies } = sim.readings();
    for (const { amps } of supplies) if (amps > 0.5) off.push(`row ${row} draws ${amps} A`);
    for (const [bit, { name, led }] of plan.wanted!.outputs.entries()) {
      if (!((words[row]! >> bit) & 1)) continue;
      const asked = outputs[bit]!.amps ?? all;
      const flows = leds.find((l) => l.led === led)?.amps ?? 0;
      if (flows < LEAST * asked || flows > MOST * asked) off.push(`row ${row}: ${name} takes ${flows} A of ${asked} A`);
    }
  }
  return off;
}

/** Two digits of one number: on one board, beside each other, the one of the higher outputs on the left. */
function digitsApart({ parts }: Plan): string[] {
  const at = parts.filter((p) => p.kind.startsWith('seven-segment')).map((p) => /^(?:(B\d+):)?([a-j])(\d+)$/.exec(p.at ?? '')!);
  const [units, tens] = at;
  if (!units || !tens) return [];
  const apart = Number(units[3]) - Number(tens[3]);
  return units[1] === tens[1] && units[2] === tens[2] && apart >= 5 && apart <= 7 ? [] : [`digits at ${units[0]} and ${tens[0]}`];
}

trial('the bench of any table is proven right, or refused in a sentence', { cases: fc.constant(0), sample: 12, full: 300 }, (_, seed) => {
  const request = randomRequest(seed);
  const made = buildPlan(request);
  if (!made.ok) {
    expect(made.failure.says).toMatch(/^[^ ].{40,}[\w)]\.$/);
    expect(made.failure.says).not.toMatch(/undefined|NaN|Infinity/);
    return { kind: `refused, ${made.failure.code}` };
  }
  const plan = withBytes(made.value, request);
  const rows = request.rows.length;
  expect(proveTable(plan)).toMatchObject({ ok: true, value: { rows, right: rows, differences: [] } });
  expect([...measure(plan, request), ...digitsApart(plan)]).toEqual([]);
  return { kind: `proven, ${request.show}${request.byHand ? ', by hand' : ''}`, inputs: request.inputs.length };
});
