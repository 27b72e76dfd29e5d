/** A fix tried on a copy of the bench: at every row what the LEDs show, and at the settings around it what may damage a part or does not work. */
import type { Plan } from '../../shared/plan.ts';
import { momentFindings, wiringFindings } from '../findings/run-rules.ts';
import type { Simulation } from '../run/api.ts';
import { isButton } from '../run/circuit/switch-settings.ts';
import { BRIGHTNESSES, type Readings } from '../run/readout/readings.ts';
import type { Share } from '../run/row-walk.ts';
import { walkPoles } from '../run/sweep.ts';
import type { SwitchedInput } from '../run/switched-inputs.ts';
import type { TableGoal } from './goal.ts';

/** Rows beyond so many are sampled: as many, in runs from all over the table. */
const MOST_ROWS = 2048;
const RUNS = 16;
/** At so many settings all findings are asked for; of more, each pole by itself, all closed and all open. */
const MOST_SETTINGS = 32;

/** What one row showed of the wanted outputs: bits that differ from the table, and bits that are undefined. */
export interface SeenRow {
  readonly row: number;
  readonly wrong: number;
  readonly unknown: number;
}

const [DARK, LIT, OVER] = (['dark', 'lit', 'overdriven'] as const).map((b) => BRIGHTNESSES.indexOf(b));

/** Every row of the table on this bench, supplies on, or a sample of so many where it has more; undefined: it cannot be built. stop: looks no further after this row. */
export function seeRows(
  plan: Plan,
  { wanted, inputs, outputs }: TableGoal,
  stop: (seen: SeenRow, k: number) => boolean = () => false,
  most = MOST_ROWS,
): readonly SeenRow[] | undefined {
  const rows = 2 ** inputs.length;
  const shares: readonly Share[] =
    rows <= most
      ? [{ part: 0, of: 1 }]
      : Array.from({ length: RUNS }, (_, k) => ({ part: Math.floor((k * rows) / most), of: (rows * RUNS) / most }));
  const seen: SeenRow[] = [];
  for (const share of shares) {
    const walk = walkPoles(plan, inputs, share);
    if (!walk.ok) return undefined;
    const { leds, brightnesses } = walk.value;
    const shown = leds.flatMap((id, k) => {
      const output = outputs.get(id);
      return output === undefined ? [] : [{ k, bit: 1 << output }];
    });
    // an LED that is gone, or burnt open, is dark
    const gone = [...outputs].reduce((mask, [id, output]) => (leds.includes(id) ? mask : mask | (1 << output)), 0);
    for (let row = walk.value.next(); row >= 0; row = walk.value.next()) {
      const care = ~(wanted.dontCare?.[row] ?? 0);
      let [wrong, unknown] = [(wanted.rows[row] ?? 0) & gone & care, 0];
      for (const { k, bit } of shown) {
        const look = brightnesses[k];
        const lit = look === LIT || look === OVER;
        if (!lit && look !== DARK) unknown |= bit & care;
        else if (lit !== (((wanted.rows[row] ?? 0) & bit) !== 0)) wrong |= bit & care;
      }
      seen.push({ row, wrong, unknown });
      if (stop({ row, wrong, unknown }, seen.length - 1)) return seen;
    }
  }
  return seen;
}

/** Damage risks and faults of this bench, by key: what the wiring shows, and what each setting shows. The bench is left in another setting. */
export function hazardsOf(sim: Simulation, inputs: readonly Pick<SwitchedInput, 'part' | 'pole'>[]): ReadonlySet<string> {
  const { circuit } = sim;
  const found = new Set<string>();
  const look = (readings: Readings) => {
    for (const f of momentFindings(circuit, readings)) if (isHazard(f)) found.add(f.key);
  };
  for (const f of wiringFindings(circuit)) if (isHazard(f)) found.add(f.key);
  look(sim.readings());
  const flip = ({ part, pole }: Pick<SwitchedInput, 'part' | 'pole'>) =>
    sim.act({ do: 'set', part, pole, closed: !(sim.readings().switches[part]?.[pole] ?? false) });
  const others = circuit.contacts
    .filter((c) => !isButton(c))
    .map((c) => ({ part: c.placed.part.id, pole: c.pole }))
    .filter((c) => !inputs.some((i) => i.part === c.part && i.pole === c.pole));
  if (2 ** inputs.length <= MOST_SETTINGS)
    for (let step = 1; step < 2 ** inputs.length; step++) {
      const input = inputs[31 - Math.clz32(step & -step)];
      if (input) flip(input);
      look(sim.readings());
    }
  for (const pole of 2 ** inputs.length <= MOST_SETTINGS ? others : [...inputs, ...others]) {
    flip(pole);
    look(sim.readings());
    flip(pole);
  }
  for (const closed of 2 ** inputs.length <= MOST_SETTINGS ? [] : [true, false]) {
    for (const { part, pole } of inputs) sim.act({ do: 'set', part, pole, closed });
    look(sim.readings());
  }
  return found;
}

const isHazard = ({ severity }: { readonly severity: string }): boolean => severity === 'damage-risk' || severity === 'fault';
