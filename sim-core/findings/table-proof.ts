/** The proof of a build: every row of its wanted table set by its switches and compared with what its LEDs really show. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { bytesOfRows, digitsByAddress, ERASED } from '../document/memory-rows.ts';
import type { Options } from '../run/api.ts';
import { suppliesOff } from '../run/circuit/switch-settings.ts';
import { BRIGHTNESSES } from '../run/readout/readings.ts';
import type { RowWalk, Share } from '../run/row-walk.ts';
import { walkRows } from '../run/sweep.ts';
import type { SwitchedInput } from '../run/switched-inputs.ts';
import { type DisabledOutputs, disabledOutputs } from './disabled-outputs.ts';
import { ledsOfOutput, stands } from './led-of-output.ts';
import { pinsOffTable } from './stored-elsewhere.ts';
import { tableInputs } from './table-goal.ts';
import { tablePins } from './table-pins.ts';

/** A row that shows something else than the table wants. */
export interface Difference {
  readonly row: number;
  /** bits that differ, and bits that are undefined (X) */
  readonly wrong: number;
  readonly unknown: number;
  readonly wanted: number;
  readonly shown: number;
}

/** What proving found: how many rows are right, and the first that differ. */
export interface TableProof {
  readonly rows: number;
  /** rows that show what is wanted, those that ask for nothing among them */
  readonly right: number;
  /** rows whose every output may be anything */
  readonly notAsked: number;
  /** rows that are not right because their byte is still erased */
  readonly notWritten: number;
  /** the first of the rows that are not right, at most `MOST_TOLD` */
  readonly differences: readonly Difference[];
  /** what sets each of the wanted inputs, in order */
  readonly inputs: readonly SwitchedInput[];
  /** switches that keep a memory's outputs disabled; only the first share looks for them */
  readonly disabled: readonly DisabledOutputs[];
  /** supplies that the plan has off: the rows were tried with them on */
  readonly off?: readonly string[];
  /** what may have happened, in sentences; only where that is simpler than the rows */
  readonly explained?: readonly string[];
}

const MOST_TOLD = 64;

/** Of an output whose LED stands on the bench and is dead: it stays dark. */
const DEAD = -2;

/** Which LED of the walk shows each wanted output; −1 for one that nothing shows. Refused where two LEDs have an output's name. */
function ledsOfWanted(plan: Plan, wanted: PlanWanted, leds: readonly string[]): Outcome<Int32Array> {
  const found = wanted.outputs.map((output) => ({ name: output.name, called: ledsOfOutput(plan, output) }));
  for (const { name, called } of found) {
    const [one, other] = called;
    if (other !== undefined)
      return failed(
        'table/led-twice',
        one ?? '',
        `${one} and ${other} are both called ${name}, so either could show this output. Give one of them another label.`,
      );
  }
  const isDead = (led: string) => !leds.includes(led) && stands(plan, led);
  return done(Int32Array.from(found, ({ called: [one = ''] }) => (isDead(one) ? DEAD : leds.indexOf(one))));
}

const [DARK, LIT, OVER] = (['dark', 'lit', 'overdriven'] as const).map((g) => BRIGHTNESSES.indexOf(g)) as [number, number, number];

/** A proof under way: rows are gone through a few at a time, so that it can be stopped and its progress shown. */
export class Proving {
  /** by row: what was shown, and which bits of it are undefined; as far as it has come */
  readonly shown: Uint16Array;
  readonly unknown: Uint16Array;
  private differences: readonly Difference[] = [];
  private right = 0;
  private notAsked = 0;
  private notWritten = 0;
  private readonly stored = new Map<string, Uint8Array>();
  private readonly elsewhere = new Map<string, boolean>();
  private done = 0;
  private readonly off: readonly string[];

  constructor(
    private readonly walk: RowWalk,
    private readonly plan: Plan,
    private readonly wanted: PlanWanted,
    /** of the walk, by output; −1: none shows it, DEAD: a dead one */
    private readonly leds: Int32Array,
    private readonly disabled: readonly DisabledOutputs[],
  ) {
    this.off = suppliesOff(plan, walk.circuit);
    this.shown = new Uint16Array(walk.rows);
    this.unknown = new Uint16Array(walk.rows);
  }

  /** goes through `most` rows more; true when all have been seen */
  go(most: number): boolean {
    const found: Difference[] = [...this.differences];
    for (let k = 0; k < most; k++) {
      const row = this.walk.next();
      if (row < 0) break;
      const difference = this.look(row);
      if (difference) found.push(difference);
      else this.right += 1;
      this.done += 1;
      if (found.length > 4 * MOST_TOLD) found.splice(0, found.length, ...firstOf(found));
    }
    this.differences = firstOf(found);
    return this.done === this.walk.mine;
  }

  /** as far as it has come; `rows` are those of this share */
  get proof(): TableProof {
    const { right, notAsked, notWritten, differences, disabled } = this;
    return { rows: this.walk.mine, right, notAsked, notWritten, differences, inputs: this.walk.inputs, disabled, ...offOf(this.off) };
  }

  /** how many rows it has seen, and for how many of them the event engine was not needed */
  get seen(): number {
    return this.done;
  }

  get solved(): number {
    return this.walk.solved;
  }

  private look(row: number): Difference | undefined {
    const { leds, wanted } = this;
    const { brightnesses } = this.walk;
    let value = 0;
    let doubt = 0;
    for (let bit = 0; bit < leds.length; bit++) {
      const brightness = leds[bit] === DEAD ? DARK : brightnesses[leds[bit] as number];
      if (brightness === LIT || brightness === OVER) value |= 1 << bit;
      else if (brightness !== DARK) doubt |= 1 << bit;
    }
    this.shown[row] = value;
    this.unknown[row] = doubt;
    const care = (2 ** wanted.outputs.length - 1) & ~(wanted.dontCare?.[row] ?? 0);
    if (care === 0) this.notAsked += 1;
    const unknown = doubt & care;
    const should = wanted.rows[row] ?? 0;
    const wrong = (value ^ should) & care & ~unknown;
    if (!wrong && !unknown) return undefined;
    if (this.isErased(wrong | unknown)) this.notWritten += 1;
    return { row, wrong, unknown, wanted: should, shown: value };
  }

  /** Is the byte behind each of these outputs, in the row where the bench stands, still erased? */
  private isErased(outputs: number): boolean {
    const { chips } = this.walk.bench().readings();
    return this.wanted.outputs.every(({ pin }, bit) => {
      if (!((outputs >> bit) & 1)) return true;
      const part = pin.slice(0, pin.indexOf('.'));
      const address = chips.find((c) => c.part === part)?.state.address;
      const isErased = address !== undefined && address.unknown === 0 && this.bytesOf(part)[address.value] === ERASED;
      return isErased && !this.isElsewhere(part);
    });
  }

  /** Does this memory hold the whole table where the bench does not read it? */
  private isElsewhere(memory: string): boolean {
    const known = this.elsewhere.get(memory);
    if (known !== undefined) return known;
    const pins = tablePins(this.walk.circuit).find((p) => p.memory === memory);
    const is = pins !== undefined && pinsOffTable(this.wanted, pins, digitsByAddress(this.plan.memories[memory])) !== undefined;
    this.elsewhere.set(memory, is);
    return is;
  }

  /** What the plan says that a memory holds: where it says nothing, nobody has written. */
  private bytesOf(memory: string): Uint8Array {
    const known = this.stored.get(memory);
    if (known) return known;
    const lines = this.walk.circuit.chipById.get(memory)?.spec.word?.address.length ?? 0;
    const bytes = bytesOfRows(this.plan.memories[memory], 2 ** lines);
    this.stored.set(memory, bytes);
    return bytes;
  }
}

/**
 * Refused where the plan has no table, or a wanted input is not set by exactly one switch. Lit is 1, dark 0; dim or undefined is X.
 * Fails with `card/no-switch`, `plan/…`, `run/no-address-switch`, `run/too-many-inputs`, `table/led-twice` or `table/none`.
 */
export function beginProof(plan: Plan, options: Partial<Options> = {}, share?: Share): Outcome<Proving> {
  const { wanted } = plan;
  if (!wanted || wanted.outputs.length === 0)
    return failed('table/none', 'wanted', 'This plan has no truth table to be proven. Write one on the page Table.');
  // a pole that is called as an input is to set it, whether or not its wires do what they should
  const begun = walkRows(plan, options, share, (sim) => tableInputs(sim, wanted, false).filter((i) => i !== undefined));
  if (!begun.ok) return begun;
  const walk = begun.value;
  const missing = wanted.inputs.find((i) => !walk.inputs.some((s) => s.pin === i.pin));
  if (missing)
    return failed(
      'card/no-switch',
      'wanted',
      `No single switch sets ${missing.name} (${missing.pin}), so its rows cannot be gone through. Wire a switch to it.`,
    );
  const leds = ledsOfWanted(plan, wanted, walk.leds);
  if (!leds.ok) return leds;
  const disabled = share && share.part > 0 ? done([]) : disabledOutputs(plan, walk.inputs);
  if (!disabled.ok) return disabled;
  return done(new Proving(walk, plan, wanted, leds.value, disabled.value));
}

const offOf = (off: readonly string[] = []): Pick<TableProof, 'off'> => (off.length > 0 ? { off } : {});

/** Only so many are kept, in order of rows. */
const firstOf = (differences: readonly Difference[]): Difference[] => [...differences].sort((a, b) => a.row - b.row).slice(0, MOST_TOLD);

/** What was seen of all rows, from what was seen of each share. */
export function joinShares(shares: readonly Pick<Proving, 'proof' | 'shown' | 'unknown'>[]): Pick<Proving, 'proof' | 'shown' | 'unknown'> {
  const total = (of: (proof: TableProof) => number) => shares.reduce((sum, s) => sum + of(s.proof), 0);
  const rows = total((p) => p.rows);
  const either = (of: 'shown' | 'unknown') => {
    const words = new Uint16Array(rows);
    // what a share has not seen stands at 0 in it
    for (const share of shares) for (const [row, word] of share[of].entries()) if (word) words[row] = word;
    return words;
  };
  return {
    proof: {
      rows,
      right: total((p) => p.right),
      notAsked: total((p) => p.notAsked),
      notWritten: total((p) => p.notWritten),
      differences: firstOf(shares.flatMap((s) => s.proof.differences)),
      inputs: shares[0]?.proof.inputs ?? [],
      disabled: shares[0]?.proof.disabled ?? [],
      ...offOf(shares[0]?.proof.off),
    },
    shown: either('shown'),
    unknown: either('unknown'),
  };
}
