/** A build is handed over only when it has been proven: every row of its table right, and every LED with the current that was asked for, on the solved bench. */
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { asMeant } from '../document/meant.ts';
import type { TableProof } from '../findings/table-proof.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import type { SwitchedInput } from '../run/switched-inputs.ts';
import { sayRowOff } from '../text/proof.ts';
import { siFormat } from '../units/quantity.ts';
import { type DraftedPlan, draftPlan } from './build-plan.ts';
import type { BuildRequest } from './build-request.ts';
import { proveTable } from './whole-proof.ts';

/** What an LED takes may differ so much from what was asked for: a step of E12 less, and a little more where few others load its chip. */
const [LEAST, MOST] = [0.78, 1.06];

/**
 * The proven bench for a request, or the sentence that says what of it cannot be built.
 * Fails with `build/…`, `card/…`, `plan/…`, `table/name-taken`, `table/no-columns` or `table/wrong-row-count`.
 */
export function buildPlan(request: BuildRequest): Outcome<Plan> {
  const draft = draftPlan(request);
  if (!draft.ok) return draft;
  const proof = proveTable(draft.value.loaded);
  return proof.ok ? handOver(request, draft.value, proof.value) : proof;
}

/** The plan, meant as it stands, where the proof of its loaded bench and the currents measured on it allow that. Fails with `build/not-proven` or `plan/…`. */
export function handOver(
  request: BuildRequest,
  { plan, loaded }: DraftedPlan,
  { rows, right, differences, inputs }: TableProof,
): Outcome<Plan> {
  const [off] = differences;
  if (off) return notProven(`row ${off.row}`, sayRowOff(off, loaded));
  if (right !== request.rows.length)
    return notProven('rows', `${right} of its ${rows} rows are right, and the table has ${request.rows.length}`);
  const measured = checkMeasured(request, loaded, inputs);
  return measured.ok ? done(asMeant(plan)) : measured;
}

const notProven = (at: string, says: string) =>
  failed(
    'build/not-proven',
    at,
    `The bench drawn up for this table is not right: ${says}. Choose another memory, other loads, or less current.`,
  );

/** Currents of all LEDs and of the supply, in the row that lights most and in one for each output that is dark in it. */
function checkMeasured({ outputs, rows, amps: all }: BuildRequest, loaded: Plan, inputs: readonly SwitchedInput[]): Outcome<void> {
  const circuit = buildCircuit(loaded);
  if (!circuit.ok) return circuit;
  const made = simulate(switchedOn(loaded, circuit.value), { still: true, bounce: false });
  if (!made.ok) return made;
  const sim = made.value;
  for (const row of rowsToMeasure(rows, outputs.length)) {
    for (const [bit, { part, pole, highWhenClosed }] of inputs.entries())
      sim.act({ do: 'set', part, pole, closed: (((row >> bit) & 1) === 1) === highWhenClosed });
    const { leds, supplies } = sim.readings();
    const over = supplies.find(
      (s) => s.amps >= Number(circuit.value.supplies.find((c) => c.placed.part.id === s.part)?.placed.params.amps),
    );
    if (over) return notProven(`row ${row}`, `in row ${row} its supply reaches its limit of ${siFormat(over.amps, 'A')}`);
    for (const [bit, { name, led }] of (loaded.wanted?.outputs ?? []).entries()) {
      if (!(((rows[row] ?? 0) >> bit) & 1)) continue;
      const asked = outputs[bit]?.amps ?? all;
      const flows = leds.find((l) => l.led === led)?.amps ?? 0;
      if (flows < LEAST * asked || flows > MOST * asked)
        return notProven(`row ${row}`, `in row ${row} ${name} takes ${siFormat(flows, 'A')} of ${siFormat(asked, 'A')}`);
    }
  }
  return done(undefined);
}

function rowsToMeasure(rows: ArrayLike<number>, outputs: number): readonly number[] {
  let fullest = 0;
  let most = 0;
  const lit = new Map<number, number>();
  for (let row = 0; row < rows.length; row++) {
    let ones = 0;
    for (let bit = 0; bit < outputs; bit++)
      if (((rows[row] ?? 0) >> bit) & 1) {
        ones += 1;
        if (!lit.has(bit)) lit.set(bit, row);
      }
    if (ones > most) [fullest, most] = [row, ones];
  }
  const others = [...lit].flatMap(([bit, row]) => (((rows[fullest] ?? 0) >> bit) & 1 ? [] : [row]));
  return [fullest, ...new Set(others)];
}
