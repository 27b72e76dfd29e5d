/** What this run has measured: figures by name, what could not be measured and why, and how the stated ratios were met. */
import { writeFileSync } from 'node:fs';
import { CLOCK, RATIOS, type Ratio, SLACK } from './ratios.ts';

/** worst: the largest difference from the reference beside it, in the unit that it says. clock: what a dense point took at that time [ms]. */
interface Figure {
  readonly value: number;
  readonly unit: 'ms' | 'kB' | 'MB' | 'frames/s' | 'exponent';
  readonly worst?: string;
  readonly clock?: number;
}

const figures = new Map<string, Figure>();
let clock: number | undefined;
const missing: { readonly name: string; readonly why: string }[] = [];

/** Keeps a figure under a name of its own; throws what is no number. */
export function keep(name: string, value: number, unit: Figure['unit'] = 'ms', worst?: string): void {
  if (!Number.isFinite(value)) throw new Error(`${name}: ${value} is no figure`);
  if (figures.has(name)) throw new Error(`${name}: measured twice`);
  figures.set(name, { value, unit, ...(worst === undefined ? {} : { worst }), ...(clock === undefined ? {} : { clock }) });
}

/** What a dense point takes now [ms]: a machine is not as fast at all times. */
export function tick(dense: number): void {
  clock = dense;
}

/** What goes wrong in this part is said, and the run goes on. */
export async function measured(name: string, work: () => void | Promise<void>): Promise<void> {
  try {
    await work();
  } catch (cause) {
    const why = cause instanceof Error ? cause.message : String(cause);
    missing.push({ name, why });
    console.log(`\n${name}: NOT MEASURED. ${why}`);
  }
}

interface Met extends Ratio {
  readonly ratio: number | undefined;
  readonly missed: boolean;
}

function meet(r: Ratio): Met {
  const of = figures.get(r.figure);
  const over = r.over === CLOCK ? of?.clock : r.over === undefined ? 1 : figures.get(r.over)?.value;
  if (of === undefined || over === undefined) return { ...r, ratio: undefined, missed: false };
  // an exponent is better when it is smaller
  const ratio = r.over === undefined ? of.value : over / of.value;
  return { ...r, ratio, missed: r.over === undefined ? ratio > SLACK * r.must : ratio < r.must / SLACK };
}

const digits = (n: number): string => (n >= 100 ? n.toFixed(0) : n >= 10 ? n.toFixed(1) : n.toFixed(2));

/** Prints how the stated ratios were met; true if all that were measured are, and nothing that was asked for is missing. */
export function conclude(file: string | undefined): boolean {
  const ratios = RATIOS.map(meet);
  console.log('\nStated ratios');
  for (const { figure, over, ratio, must, goal, missed } of ratios) {
    const said = ratio === undefined ? 'not in this run' : `${digits(ratio)}, must ${digits(must)}, goal ${digits(goal)}`;
    console.log(`  ${missed ? 'MISSED' : '      '}  ${over === undefined ? figure : `${over} over ${figure}`}: ${said}`);
  }
  if (file !== undefined) {
    const host = { node: process.version, platform: process.platform, arch: process.arch };
    writeFileSync(file, `${JSON.stringify({ ...host, figures: Object.fromEntries(figures), ratios, missing }, null, 2)}\n`);
  }
  for (const { name, why } of missing) console.log(`  NOT MEASURED  ${name}: ${why}`);
  return missing.length === 0 && !ratios.some((r) => r.missed);
}
