/** The programming card: which bytes a hand still has to write on this bench, in the order with the fewest moves, and what to move for each. */

import { grouped } from '../../shared/grouped.ts';
import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanWanted } from '../../shared/plan.ts';
import { bytesOfRows } from '../document/memory-rows.ts';
import { blankImage, type MemoryImage } from '../logic/memory-image.ts';
import { HAND_SPEED, programmingOrder } from '../logic/programming-order.ts';
import type { Simulation } from '../run/api.ts';
import { buildCircuit } from '../run/circuit/circuit.ts';
import type { ChipSite } from '../run/circuit/sites.ts';
import { switchedOn } from '../run/circuit/switch-settings.ts';
import { simulate } from '../run/simulation.ts';
import type { PoleAt } from '../run/switched-inputs.ts';
import { type ControlMap, controlMapOf } from './control-map.ts';
import { howProgrammed, sayNotByHand } from './how-programmed.ts';

/** A card of more bytes is no card that anybody follows, and its order would take minutes to find. Our choice: a whole 2K × 8. */
const MOST_BYTES = 2048;

/** One byte of the card: its address, its data, and the poles to move for it. */
export interface CardStep {
  readonly memory: string;
  readonly address: number;
  readonly byte: number;
  /** bits of it that the table asks for; the others may be anything */
  readonly given: number;
  /** rows of the wanted table that this byte answers; several where free inputs are tied, none where the table has no such row */
  readonly row: number;
  /** poles that differ from the step before, in order of the switches' poles */
  readonly moves: readonly PoleAt[];
  /** outputs that are 1 when the byte is read back, by their place in the table; of bits that may be anything, as they are written */
  readonly lit: readonly number[];
}

/** The card of one memory: where its switches begin, and its bytes in the order of fewest moves. */
export interface MemoryCard {
  readonly memory: string;
  readonly button: string;
  /** poles to set before the first byte, and after the last one */
  readonly toWrite: readonly PoleAt[];
  readonly toRead: readonly PoleAt[];
  readonly steps: readonly CardStep[];
  /** flipped poles in all, the least that any order can have, and whether that is reached for certain */
  readonly flips: number;
  readonly atLeast: number;
  readonly exact: boolean;
  /** the same bytes in order of their addresses */
  readonly flipsAscending: number;
  readonly seconds: number;
}

/**
 * One card a memory that the table names and that has a button of its own; bytes that are right already are left out.
 * Fails with `card/…`, `plan/…` or `table/none`.
 */
export function programmingCard(plan: Plan): Outcome<readonly MemoryCard[]> {
  const { wanted } = plan;
  if (!wanted || wanted.outputs.length === 0)
    return failed('table/none', 'wanted', 'This plan has no truth table, so there is nothing to write. Fill in the Table page.');
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) return circuit;
  const made = simulate(switchedOn(plan, circuit.value), { still: true, bounce: false });
  if (!made.ok) return made;
  const sim = made.value;
  const all = controlMapOf(sim);
  const named = sim.circuit.chips.filter((c) => wanted.outputs.some((o) => o.pin.startsWith(`${c.placed.part.id}.`)));
  const cards: MemoryCard[] = [];
  /** where the poles stand when it is a memory's turn, by part and pole */
  const stands = new Map(
    Object.entries(sim.readings().switches).flatMap(([part, poles]) => poles.map((closed, pole) => [`${part} ${pole}`, closed] as const)),
  );
  for (const site of named) {
    const id = site.placed.part.id;
    const controls = all.find((h) => h.memory === id);
    if (!controls) return failed('card/no-write-button', id, sayNotByHand(howProgrammed(site.placed.kind, site.spec), id));
    const card = cardFor(plan, sim, site, controls, stands);
    if (!card.ok) return card;
    cards.push(card.value);
    const { toWrite, steps, toRead } = card.value;
    for (const { part, pole, closed } of [...toWrite, ...steps.flatMap((s) => s.moves), ...toRead]) stands.set(`${part} ${pole}`, closed);
  }
  if (cards.length === 0)
    return failed('card/no-outputs', 'wanted', 'The table names no output of a memory on this bench. Name pins such as U1.D0.');
  return done(cards);
}

function cardFor(
  plan: Plan,
  sim: Simulation,
  site: ChipSite,
  controls: ControlMap,
  switches: ReadonlyMap<string, boolean>,
): Outcome<MemoryCard> {
  const id = controls.memory;
  const mapped = imageFor(plan, sim, site, controls);
  if (!mapped.ok) return mapped;
  const { image, rowAt } = mapped.value;
  const stored = bytesOfRows(sim.plan().memories[id], image.bytes.length);
  const stands = (poles: ControlMap['address']) =>
    poles.reduce((n, p, bit) => (p && (switches.get(`${p.part} ${p.pole}`) ?? false) === p.highWhenClosed ? n + 2 ** bit : n), 0);
  const fixed = [...image.given.keys()].find(
    (a) => image.given[a] && controls.data.some((p, bit) => !p && ((image.given[a] ?? 0) >> bit) & 1),
  );
  if (fixed !== undefined)
    return failed(
      'card/no-switch',
      id,
      `Not every data pin of ${id} that the table uses is set by one switch. Wire a data switch to each, or load the image in one step.`,
    );
  const toWrite = [...image.given.keys()].filter((a) => ((image.bytes[a] ?? 0) ^ (stored[a] ?? 0)) & (image.given[a] ?? 0)).length;
  const fits = checkLength(id, toWrite);
  if (!fits.ok) return fits;
  const order = programmingOrder(image, stored, { address: stands(controls.address), data: stands(controls.data) });
  const lines = linesOf(plan.wanted?.outputs ?? [], id, site.spec.word?.data ?? []);
  return done({
    memory: id,
    button: controls.button,
    toWrite: controls.toWrite,
    toRead: [...controls.toRead, ...controls.data.flatMap((p) => (p ? [{ part: p.part, pole: p.pole, closed: !p.highWhenClosed }] : []))],
    steps: order.steps.map(({ address, data, addressFlips, dataFlips }): CardStep => {
      const row = rowAt.get(address) ?? 0;
      return {
        memory: id,
        address,
        byte: data,
        given: image.given[address] ?? 0,
        row,
        moves: [...flipped(controls.address, addressFlips, address), ...flipped(controls.data, dataFlips, data)],
        lit: lines.flatMap(({ i, bit, activeLow }) => ((((data >> bit) & 1) === 1) !== activeLow ? [i] : [])),
      };
    }),
    flips: order.flips,
    atLeast: order.atLeast,
    exact: order.exact,
    flipsAscending: order.flipsAscending,
    seconds: order.seconds,
  });
}

/** called: as a sentence begins with it. Fails with `card/too-long` where nobody would write so many bytes by hand. */
export function checkLength(memory: string, bytes: number, called = memory): Outcome<void> {
  const seconds = HAND_SPEED.press + HAND_SPEED.look;
  return bytes > MOST_BYTES
    ? failed(
        'card/too-long',
        memory,
        `${called} needs ${grouped(bytes)} bytes, which at ${seconds} s per press would take ${grouped(Math.round((bytes * seconds) / 3600))} hours by hand; a card holds at most ${grouped(MOST_BYTES)}. Load the image in one step.`,
      )
    : done(undefined);
}

const flipped = (poles: ControlMap['address'], flips: number, value: number): PoleAt[] =>
  poles.flatMap((p, bit) =>
    p && (flips >> bit) & 1 ? [{ part: p.part, pole: p.pole, closed: (((value >> bit) & 1) === 1) === p.highWhenClosed }] : [],
  );

/** The wanted outputs that lie on a memory's data pins, each with its bit there. */
const linesOf = (outputs: PlanWanted['outputs'], memory: string, data: readonly string[]) =>
  outputs.flatMap(({ pin, activeLow }, i) => {
    const bit = data.findIndex((d) => `${memory}.${d}` === pin);
    return bit < 0 ? [] : [{ i, bit, activeLow: activeLow === true }];
  });

/** What the table asks of one memory: a byte at each address that its inputs reach, the other address pins as they are tied. */
function imageFor(
  plan: Plan,
  sim: Simulation,
  site: ChipSite,
  controls: ControlMap,
): Outcome<{ readonly image: MemoryImage; readonly rowAt: ReadonlyMap<number, number> }> {
  const id = controls.memory;
  const names = site.spec.word?.address ?? [];
  const data = site.spec.word?.data ?? [];
  const wanted = plan.wanted ?? { inputs: [], outputs: [], rules: [], rows: [] };
  const tied = sim.readings().chips.find((c) => c.part === id)?.state.address;
  const bits: number[] = [];
  for (const { name, pin } of wanted.inputs) {
    // the table names one memory's pins; the others are connected to the same switches
    const pole = poleOfInput(sim, controls, pin);
    if (pole === undefined)
      return failed(
        'card/not-wired',
        pin,
        `${name} (${pin}) is not on an address pin of ${id}. Wire it there, or name the right pin in the table.`,
      );
    bits.push(pole);
  }
  const inputs = bits.reduce((mask, bit) => mask | (1 << bit), 0);
  const open = names.findIndex((_, bit) => !((inputs >> bit) & 1) && ((tied?.unknown ?? 0) >> bit) & 1);
  if (open >= 0)
    return failed('card/not-wired', `${id}.${names[open]}`, `${names[open]} of ${id} is not held at a level. Tie it low with a wire.`);
  const image = blankImage(2 ** names.length);
  const rowAt = new Map<number, number>();
  const lines = linesOf(wanted.outputs, id, data);
  for (let row = 0; row < wanted.rows.length; row++) {
    let address = (tied?.value ?? 0) & ~inputs;
    for (const [i, bit] of bits.entries()) if ((row >> i) & 1) address |= 1 << bit;
    let byte = 0;
    let given = 0;
    for (const { i, bit, activeLow } of lines) {
      if (((((wanted.rows[row] ?? 0) >> i) & 1) === 1) !== activeLow) byte |= 1 << bit;
      if (!(((wanted.dontCare?.[row] ?? 0) >> i) & 1)) given |= 1 << bit;
    }
    image.bytes[address] = byte;
    image.given[address] = given;
    rowAt.set(address, row);
  }
  return done({ image, rowAt });
}

/** The address bit of this memory that the switch of a wanted input sets. */
function poleOfInput(sim: Simulation, { memory, address }: ControlMap, pin: string): number | undefined {
  const own = sim.circuit.chipById.get(memory);
  const netOf = (name: string): number | undefined => {
    const site = sim.circuit.chips.find((c) => name.startsWith(`${c.placed.part.id}.`));
    const leg = site?.inputs.find((i) => `${site.placed.part.id}.${i.name}` === name)?.leg;
    return leg && sim.circuit.netOf(leg).index;
  };
  const net = netOf(pin);
  const bit = (own?.spec.word?.address ?? []).findIndex((name) => netOf(`${memory}.${name}`) === net);
  return net === undefined || bit < 0 || !address[bit] ? undefined : bit;
}
