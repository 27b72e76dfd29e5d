/** A bench taken through the rows of its inputs, one switch after the other: by the row engine where it can, by the event engine where it must. */
import type { Simulation } from './api.ts';
import type { BuiltCircuit } from './built-circuit.ts';
import type { Circuit } from './circuit/circuit.ts';
import type { ContactSite } from './circuit/sites.ts';
import { RowEngine } from './rows/row-engine.ts';
import type { RowReadings } from './rows/row-readings.ts';
import type { SwitchedInput } from './switched-inputs.ts';

/** One of so many equal shares of all rows, in the order in which they are gone through; the first is 0. */
export interface Share {
  readonly part: number;
  readonly of: number;
}

/** A bench that is taken through the rows of its inputs one after the other, with every supply on and every button released. */
export interface RowWalk {
  readonly inputs: readonly SwitchedInput[];
  /** of all inputs, and of this share */
  readonly rows: number;
  readonly mine: number;
  /** how many rows the event engine was not needed for until now */
  readonly solved: number;
  /** names of the LEDs that `brightnesses` speaks of */
  readonly leds: readonly string[];
  /** places in BRIGHTNESSES of the LEDs in the row where it stands; written again by every `next` */
  readonly brightnesses: Uint8Array;
  readonly circuit: Circuit;
  /** node voltages in the row where it stands [V]; the last place is ground */
  voltages(into: Float64Array): void;
  /** of the row where it stands */
  readings(): RowReadings;
  /** the bench in the row where the walk stands */
  bench(): Simulation;
  /** goes to the next row, one switch away, and returns its number; −1: all have been seen. Nothing is read but the LEDs. */
  next(): number;
  /** goes to this row, of which nothing is read but the LEDs; `next` goes on as if it had not been asked */
  goTo(row: number): void;
  /** begins with the first row again; what is known of the bench stays */
  again(): void;
}

/** Every so many rows are solved by the event engine whatever the other says; a prime, so that no bit of their numbers stays as it is. */
const JUDGED = 2053;

export class RowWalker implements RowWalk {
  readonly rows: number;
  readonly leds: readonly string[];
  readonly brightnesses: Uint8Array;
  private readonly first: number;
  private readonly beyond: number;
  /** by input; undefined: its pole is not on the bench */
  private readonly sites: readonly (ContactSite | undefined)[];
  private step: number;
  private asked = 0;
  /** the row in which the switches are, and that in which the event engine has them */
  private row: number | undefined;
  private stands: number | undefined;
  private engine: RowEngine | undefined;
  private isSolved = false;
  private withoutEvents = 0;

  /** sim: with its supplies on, skipping the time between events. events: the event engine solves every row. */
  constructor(
    private readonly sim: Simulation & { readonly built: BuiltCircuit },
    readonly inputs: readonly SwitchedInput[],
    { part, of }: Share,
    events: boolean,
  ) {
    this.rows = 2 ** inputs.length;
    this.leds = sim.circuit.leds.map((l) => l.id);
    this.brightnesses = new Uint8Array(this.leds.length);
    this.first = Math.floor((this.rows * part) / of);
    this.beyond = Math.floor((this.rows * (part + 1)) / of);
    this.step = this.first - 1;
    this.sites = inputs.map((input) => sim.circuit.contactsById.get(input.part)?.[input.pole]);
    this.set(gray(this.first));
    // what still happens by itself follows from more than levels
    if (!events && !sim.pending)
      this.engine = RowEngine.of(
        sim.built,
        this.sites.flatMap((site) => site ?? []),
        this.brightnesses,
      );
    if (events || this.engine) sim.built.solver.solveWhole();
  }

  get mine(): number {
    return this.beyond - this.first;
  }

  get solved(): number {
    return this.withoutEvents;
  }

  get circuit(): Circuit {
    return this.sim.circuit;
  }

  voltages(into: Float64Array): void {
    if (this.isSolved) this.engine?.voltages(into);
    else this.sim.voltages(into);
  }

  readings(): RowReadings {
    if (this.isSolved && this.engine) return this.engine.readings();
    const { chips, leds } = this.sim.readings();
    const memories = chips.flatMap(({ part, state: { address, data } }) => (address ? [{ part, address, ...(data ? { data } : {}) }] : []));
    return { memories, leds };
  }

  bench(): Simulation {
    if (this.row !== undefined) this.set(this.row);
    return this.sim;
  }

  next(): number {
    this.step += 1;
    if (this.step >= this.beyond) return -1;
    const row = gray(this.step);
    this.goTo(row);
    return row;
  }

  again(): void {
    this.step = this.first - 1;
  }

  goTo(row: number): void {
    const { engine } = this;
    if (engine)
      for (let bit = 0; bit < this.sites.length; bit++)
        if (this.row === undefined || ((this.row ^ row) >> bit) & 1)
          engine.setContact(this.sites[bit] as ContactSite, this.isClosed(bit, row));
    this.row = row;
    this.isSolved = this.asked++ % JUDGED !== 0 && engine?.solve() === true;
    if (this.isSolved) {
      this.withoutEvents += 1;
      return;
    }
    this.set(row);
    this.sim.brightnesses(this.brightnesses);
    if (engine && !engine.learn()) this.engine = undefined;
  }

  private isClosed(bit: number, row: number): boolean {
    return (((row >> bit) & 1) === 1) === this.inputs[bit]?.highWhenClosed;
  }

  /** The event engine is taken to this row: with the row engine at hand at once, without it one switch after the other, since what is stored may depend on the way. */
  private set(row: number): void {
    const { stands, inputs, sim, engine } = this;
    if (stands === row) return;
    for (const [bit, { part, pole }] of inputs.entries()) {
      if (stands !== undefined && !(((row ^ stands) >> bit) & 1)) continue;
      const act = { do: 'set', part, pole, closed: this.isClosed(bit, row) } as const;
      if (engine) sim.begin(act);
      else sim.act(act);
    }
    if (engine) sim.rest();
    this.stands = row;
  }
}

/** The row of a step: neighbours are one switch apart. */
const gray = (step: number): number => step ^ (step >> 1);
