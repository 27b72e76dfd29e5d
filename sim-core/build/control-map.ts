/** What a hand writes with on a bench, found by following its wires: the poles of address, data and enables, and the button of each memory. */
import type { Simulation } from '../run/api.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { blocksOf, isButton } from '../run/circuit/switch-settings.ts';
import { type PoleAt, type SwitchedInput, switchAt } from '../run/switched-inputs.ts';

export type Pole = Omit<SwitchedInput, 'name'>;

/** What a byte is written with: the pole of each address and data pin and enable, and the button of each memory. */
export interface ControlMap {
  readonly memory: string;
  /** by address bit; undefined: nothing sets it, it stays as it is tied */
  readonly address: readonly (Pole | undefined)[];
  /** by data bit; undefined: nothing sets it, and what is stored in it is what its pin is tied to */
  readonly data: readonly (Pole | undefined)[];
  /** poles that must stand so that a press writes, and so that the memory reads */
  readonly toWrite: readonly PoleAt[];
  readonly toRead: readonly PoleAt[];
  readonly button: string;
}

/** sim: supplies on, buttons released; its switches are moved and put back. Memories without a button of their own are left out. */
export function controlMapOf(sim: Simulation): readonly ControlMap[] {
  return sim.circuit.chips.flatMap((site): ControlMap[] => {
    const button = buttonOf(sim, site);
    const { word, toRead } = site.spec;
    if (button === undefined || !word || !toRead) return [];
    const id = site.placed.part.id;
    const control = Object.entries(toRead).flatMap(([name, level]) => {
      const pole = switchAt(sim, `${id}.${name}`);
      return pole ? [{ name, level, pole }] : [];
    });
    const poleFor = (level: 'L' | 'H', { part, pole, highWhenClosed }: Pole): PoleAt => ({
      part,
      pole,
      closed: (level === 'H') === highWhenClosed,
    });
    const other = { L: 'H', H: 'L' } as const;
    // to be written a memory must be enabled and must not drive its data pins
    const toWrite = control.map(({ name, level, pole }) => poleFor(name === '/OE' ? other[level] : level, pole));
    const reads = control.map(({ level, pole }) => poleFor(level, pole));
    for (const { part, pole, closed } of toWrite) sim.act({ do: 'set', part, pole, closed });
    const data = word.data.map((name) => switchAt(sim, `${id}.${name}`));
    for (const { part, pole, closed } of reads) sim.act({ do: 'set', part, pole, closed });
    return [{ memory: id, address: word.address.map((name) => switchAt(sim, `${id}.${name}`)), data, toWrite, toRead: reads, button }];
  });
}

/** The one button that shares a block with an input of the memory. */
function buttonOf({ circuit }: Simulation, site: ChipSite): string | undefined {
  const control = Object.keys(site.spec.toRead ?? {});
  const blocks = blocksOf(
    circuit,
    site.inputs.filter((i) => control.includes(i.name)).map((i) => i.leg),
  );
  const buttons = circuit.contacts.filter((c) => isButton(c) && [...blocksOf(circuit, c.legs)].some((b) => blocks.has(b)));
  return buttons.length === 1 ? buttons[0]?.placed.part.id : undefined;
}

/** The acts that bring a bench's poles to where they are asked to be; those that stand there already are left alone. */
export function moves(sim: Simulation, asked: readonly PoleAt[]): PoleAt[] {
  return asked.filter(({ part, pole, closed }) => sim.isClosed(part, pole) !== closed);
}
