/** What the rows of the table say of the live bench: tried on a copy once for each bench, bytes and setting of what is no input, and kept until one of these changes. */
import { type Finding, type Simulation, type TableSaid, tableInTurns } from '../../sim-core/index.ts';

export class TableFindings {
  private said: TableSaid = { findings: [], inputs: [] };
  private circuit: Simulation['circuit'] | undefined;
  private key = '';

  /** Undefined: the rows have to be tried. Nothing while every supply is off. */
  known(sim: Simulation): readonly Finding[] | undefined {
    if (!sim.circuit.plan.wanted || !sim.readings().supplies.some((s) => s.on)) return [];
    return this.circuit === sim.circuit && this.key === this.keyOf(sim) ? this.said.findings : undefined;
  }

  *look(sim: Simulation): Generator<void, readonly Finding[]> {
    this.said = yield* tableInTurns(sim);
    this.circuit = sim.circuit;
    this.key = this.keyOf(sim);
    return this.said.findings;
  }

  private keyOf(sim: Simulation): string {
    const { memories, cells, wanted } = sim.plan();
    const inputs = new Set(this.said.inputs.map(({ part, pole }) => `${part} ${pole}`));
    const others = sim.circuit.contacts.filter((c) => !c.contact.momentary && !inputs.has(`${c.placed.part.id} ${c.pole}`));
    return JSON.stringify([memories, cells, wanted, others.map((c) => sim.isClosed(c.placed.part.id, c.pole))]);
  }
}
