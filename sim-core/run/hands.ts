/** What a hand does on a running bench: it moves switches and wires, edits, and holds a light over a window. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanWire } from '../../shared/plan.ts';
import { apply, type Change } from '../document/changes.ts';
import type { Action } from './action.ts';
import type { Options } from './api.ts';
import { buildCircuit } from './circuit/circuit.ts';
import type { ContactSite, SupplySite } from './circuit/sites.ts';
import type { ContactMove, SwitchStates } from './digital/switch-state.ts';
import { rewire } from './rewiring.ts';
import { TURNS_TO_REST } from './settle-limits.ts';
import type { TimeLoop } from './time-loop.ts';

/** How long a hand takes from one hole to another [s]. */
const MOVE_SECONDS = 0.3;

export class Hands {
  private readonly loop: TimeLoop;
  private readonly switches: SwitchStates;
  private readonly options: Options;

  constructor(loop: TimeLoop, switches: SwitchStates, options: Options) {
    this.loop = loop;
    this.switches = switches;
    this.options = options;
  }

  /** Does it, and yields after each turn of the time that the hand needs for it. */
  *begin(act: Action): Generator<void, Outcome<void>> {
    this.loop.handBegins();
    switch (act.do) {
      case 'move-wire':
        return yield* this.moveWire(act);
      case 'edit':
        return this.edit(act.change);
      case 'light':
        return yield* this.illuminate(act);
      default:
        return this.set(act.part, act.do === 'set' ? act.pole : 0, act.do === 'set' ? act.closed : act.do === 'press', act.do === 'set');
    }
  }

  edit(change: Change): Outcome<void> {
    return rewire(this.loop, this.switches, this.options, change);
  }

  /** bySwitch: moves a switch, and no button */
  private set(part: string, pole: number, closed: boolean, bySwitch: boolean): Outcome<void> {
    const { supplyById, contactsById } = this.loop.built.circuit;
    const supply = bySwitch && pole === 0 ? supplyById.get(part) : undefined;
    const contact = contactsById.get(part)?.[pole];
    if (supply) this.switchSupply(supply, closed);
    else if (contact) this.moveContact(contact, closed);
    else return failed('run/no-switch', part, `${part} has no switch ${pole + 1} that a hand could move on this bench.`);
    return done(undefined);
  }

  private switchSupply({ device, placed }: SupplySite, on: boolean): void {
    this.loop.built.circuit.network.switchSupply(device, on);
    this.switches.set(placed.part.id, 0, on);
    this.loop.touched();
  }

  private moveContact({ placed, pole, contact }: ContactSite, closed: boolean): void {
    const { schedule, time, listener } = this.loop;
    const hand = placed.part.id;
    const rebounds = listener.rebounds(contact.bounce);
    const moves = this.switches.move(hand, pole, closed, rebounds.length);
    for (let k = 0; k < moves.length; k++) schedule.move(time + (rebounds[k - 1] ?? 0), moves[k] as ContactMove);
    this.switches.set(hand, pole, closed);
  }

  private *moveWire({ wire: id, end, point }: Extract<Action, { do: 'move-wire' }>): Generator<void, Outcome<void>> {
    const { plan } = this.loop.built.circuit;
    const index = plan.wires.findIndex((l) => l.id === id);
    const wire = plan.wires[index];
    if (!wire)
      return failed('run/unknown-wire', id, `There is no wire ${id} on this bench; it has ${plan.wires.map((l) => l.id).join(', ')}.`);
    const moved: PlanWire = { ...wire, [end]: point };
    const fits = buildCircuit(
      apply(plan, { op: 'replace', list: 'wires', before: wire, after: moved }),
      this.options.drive,
      this.options.overrides,
    );
    if (!fits.ok) return fits;
    const out = this.edit({ op: 'remove', list: 'wires', item: wire, index });
    if (!out.ok) return out;
    yield* this.loop.pass(this.loop.time + MOVE_SECONDS, TURNS_TO_REST);
    return this.edit({ op: 'insert', list: 'wires', item: moved, index });
  }

  private *illuminate(act: Extract<Action, { do: 'light' }>): Generator<void, Outcome<void>> {
    const { loop } = this;
    const slot = loop.built.runtime.byPart.get(act.part);
    if (!slot?.chip.light) return failed('run/no-window', act.part, `${act.part} has no window for light. Choose a UV EPROM.`);
    if (!(act.seconds >= 0 && act.wattsPerCm2 >= 0))
      return failed(
        'run/bad-exposure',
        act.part,
        `Light needs a time and a strength of 0 or more; these are ${act.seconds} s and ${act.wattsPerCm2} W/cm².`,
      );
    const begun = loop.time;
    yield* loop.pass(begun + act.seconds, TURNS_TO_REST);
    // the light that is taken away early has shone for less
    if (!act.covered) slot.chip.light((loop.isStopped() ? loop.time - begun : act.seconds) * act.wattsPerCm2, loop.time);
    return done(undefined);
  }
}
