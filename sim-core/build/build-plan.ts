/** From a truth table to a complete bench, not yet proven: memories, their loads, and the board with the switches, every pin tied and every value computed. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanBoard, PlanPart, PlanWanted, PlanWire } from '../../shared/plan.ts';
import { everyRow } from '../document/memory-rows.ts';
import { partKind } from '../parts/catalogue.ts';
import { darlingtonArray8 } from '../parts/darlington-array.ts';
import { led } from '../parts/led.ts';
import { octalBuffer } from '../parts/octal-buffer.ts';
import type { ChipSpec, PartKind } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { tidyWiring } from '../tidy/tidy-wiring.ts';
import { type BuildRequest, memoriesFor, WORD } from './build-request.ts';
import {
  type BoardPlace,
  type BuilderState,
  bridge,
  finish,
  newBuilderState,
  railBeside,
  type SeatedPart,
  takeFreeHole,
  tie,
} from './builder-state.ts';
import { bytesOfRequest, outputsOf } from './bytes-of-request.ts';
import { bareMemory, power } from './common-sections.ts';
import { limitsOf } from './current-limits.ts';
import { putBuffer, putDriver, type Source } from './drivers.ts';
import { chipOf, contentsOfKind } from './kind-contents.ts';
import { seatLoads } from './loads.ts';
import { checkRequest } from './request-checks.ts';
import { inputSwitches, putEnable, putInputs, putWriteControls, rowsOfSwitches } from './switch-board.ts';
import { limitFor, pullDownFor, seriesFor } from './value-selection.ts';
import { WRITE_NETWORK_ROWS, type WriteNetwork, writeNetworkFor } from './write-network.ts';

/** Rows to the left of it are left to the supply's wires. */
const MEMORY_ROW = 5;

interface Chosen {
  readonly kind: PartKind;
  readonly spec: ChipSpec;
  readonly address: readonly string[];
  readonly data: readonly string[];
  readonly memories: number;
  readonly network?: WriteNetwork;
}

/** A bench as it is drawn up, not yet proven, and the same with its bytes in it: what a proof goes through. */
export interface DraftedPlan {
  readonly plan: Plan;
  readonly loaded: Plan;
}

/**
 * The bench for a request, or the sentence that says what of it cannot be built. It is still to be proven: see `buildPlan`.
 * Fails with `build/…`, `card/too-long`, `plan/…`, `table/name-taken`, `table/no-columns` or `table/wrong-row-count`.
 */
export function draftPlan(request: BuildRequest): Outcome<DraftedPlan> {
  const chosen = choose(request);
  if (!chosen.ok) return chosen;
  const { plan, images } = compose(request, chosen.value);
  const tidied = tidyWiring(plan, { locked: [...plan.parts.filter(staysPut), ...plan.wires.filter(isFromSupply)].map(({ id }) => id) });
  if (!tidied.ok) return tidied;
  const tidy = tidied.value.plan;
  return done({ plan: tidy, loaded: { ...tidy, memories: images } });
}

const isFromSupply = ({ from }: PlanWire): boolean => from.includes('.');

/** Switches stand by their pins, chips by each other, and what leads to a rail stands square to it. */
const staysPut = ({ kind, at = '', to = '' }: PlanPart): boolean =>
  ['switch', 'logic'].includes(partKind(kind)?.group ?? '') || /[+-]/.test(`${at}${to}`);

function choose(request: BuildRequest): Outcome<Chosen> {
  const kind = partKind(request.memory);
  const spec = kind && kind.group === 'memory' ? chipOf(kind, fallbackParams(kind)) : undefined;
  if (!kind || !spec?.word)
    return failed(
      'build/unknown-memory',
      'memory',
      `There is no memory called ${request.memory}. Choose one from the Memories group in Parts.`,
    );
  const buildable = checkRequest(request, kind, spec);
  if (!buildable.ok) return buildable;
  const { address, data } = spec.word;
  const chosen = { kind, spec, address, data, memories: memoriesFor(request) };
  if (!request.byHand) return done(chosen);
  const network = writeNetworkFor(kind);
  return network.ok ? done({ ...chosen, network: network.value }) : network;
}

const fallbackParams = (kind: PartKind) => Object.fromEntries(kind.params.map((p) => [p.name, p.fallback]));

function compose(request: BuildRequest, chosen: Chosen): { readonly plan: Plan; readonly images: NonNullable<Plan['memories']> } {
  const { kind, spec, address, memories, network } = chosen;
  const state = newBuilderState(boardsFor(memories, request.byHand), [...request.inputs, ...request.outputs.map((o) => o.name)]);
  const supply = power(state);
  const seated = state.boards.slice(0, memories).map((board) => {
    const fixed: Readonly<Record<string, null>> = request.byHand ? { '/OE': null, '/WE': null } : {};
    const memory = bareMemory(state, kind, { board, column: 'd', row: MEMORY_ROW }, fixed);
    for (const pin of address.slice(request.inputs.length)) tie(state, memory.row(pin), '-', 'grey');
    return { board, memory };
  });
  const leds = seated.flatMap(({ board, memory }, m) => putOutputs(state, request, chosen, board, memory, m));
  // the memory nearest to the switches comes first, the others are wired on from it
  const near = [...seated].reverse();
  const pullDown = pullDownFor(memories * spec.input.leakage, spec.input.vil);
  const count = request.inputs.length;
  const switches = putInputs(
    state,
    {
      board: boardAt(state, memories),
      row: Math.max(1, (near[0]?.memory.row(address[0] ?? '').row ?? 1) + 1 - rowsOfSwitches(count)),
      out: 'upper',
    },
    request.inputs.map((name, i) => ({ name, to: near.map(({ memory }) => memory.row(address[i] ?? '')) })),
    pullDown,
  );
  const poles: Record<string, boolean[]> = { [supply]: [false] };
  for (const [k, { count: some }] of inputSwitches(count).entries()) poles[switches[k] ?? ''] = Array.from({ length: some }, () => false);
  if (network) Object.assign(poles, putWriting(state, request, { ...chosen, network }, seated, pullDown));
  const ids = seated.map(({ memory }) => memory.id);
  const images = Object.fromEntries(ids.map((id, m) => [id, imageOf(request, m)]));
  const plan = finish(state, {
    title: request.title,
    memories: request.byHand ? {} : images,
    wanted: wantedOf(request, chosen, ids, leds),
    notes: notesOf(request, chosen),
    switches: poles,
  });
  return { plan, images };
}

interface SeatedMemory {
  readonly board: PlanBoard;
  readonly memory: SeatedPart;
}

/** The memories' boards, the board of the inputs below them all, and above each memory the board that it is written from. */
function boardsFor(memories: number, byHand: boolean): BoardPlace[] {
  const levels = Array.from({ length: memories }, (_, m) => (byHand ? 2 * m + 1 : m));
  return [
    ...levels.map((level): BoardPlace => ({ kind: 'board-63', level })),
    { kind: 'board-30', level: (levels.at(-1) ?? 0) + 1 },
    ...(byHand ? levels.map((level): BoardPlace => ({ kind: 'board-30', level: level - 1 })) : []),
  ];
}

function boardAt({ boards }: BuilderState, i: number): PlanBoard {
  const board = boards[i];
  if (!board) throw new Error(`the builder has no board ${i}`);
  return board;
}

/** The enables' pole, and each memory's data poles and button, in the order of its pins above it. Returns how the switches stand. */
function putWriting(
  state: BuilderState,
  request: BuildRequest,
  chosen: Chosen & { readonly network: WriteNetwork },
  seated: readonly SeatedMemory[],
  pullDown: number,
): Record<string, boolean[]> {
  const { data, network, memories } = chosen;
  const poles: Record<string, boolean[]> = {};
  for (const [m, { memory }] of seated.entries()) {
    const board = boardAt(state, memories + 1 + m);
    const all = data.map((pin) => memory.row(pin));
    const used = all.slice(0, outputsOf(request, m).length);
    const strip = Math.max(WRITE_NETWORK_ROWS, memory.row('/WE').row);
    const enable = Math.max(strip + 1, memory.row('/OE').row);
    if (m === 0)
      for (const id of putEnable(
        state,
        { board, row: enable, out: 'lower' },
        seated.map((s) => s.memory.row('/OE')),
        pullDown,
      ))
        poles[id] = [false];
    const values = dataValues(request, chosen);
    // an unused bit must not float while its byte is written
    for (const row of all.slice(used.length))
      bridge(state, resistor, 'R', takeFreeHole(state, row), railBeside(state, row, '-'), { params: { ohms: values.pullDown } });
    const upper = all.findIndex((row) => row.side === 'upper');
    const row = Math.max(enable + 2, (all[upper]?.row ?? 0) + upper - used.length + 1);
    const controls = { data: used, strobe: memory.row('/WE'), network, ...values };
    const { data: id } = putWriteControls(state, { board, row, out: 'lower' }, strip, controls, memories > 1 ? memory.id : undefined);
    poles[id] = used.map(() => false);
  }
  return poles;
}

/** Two rows are free between two chips, and three where wires come down between them. */
const BETWEEN = 3;

/** Buffer and loads of one memory; returns each output's LED. */
function putOutputs(
  state: BuilderState,
  request: BuildRequest,
  { data, spec, kind }: Chosen,
  board: PlanBoard,
  memory: SeatedPart,
  m: number,
): string[] {
  const outputs = outputsOf(request, m);
  const inputs = data.slice(0, outputs.length).map((pin) => memory.row(pin));
  const limits = limitsOf(request)?.slice(WORD * m, WORD * (m + 1)) ?? [];
  const row = MEMORY_ROW + kind.pins(fallbackParams(kind)).length / 2 - 1 + BETWEEN + (request.byHand ? 1 : 0);
  const chip = request.show === 'loads' ? darlingtonArray8 : request.buffered ? octalBuffer : undefined;
  const first = chip ? row + chip.pins({}).length / 2 - 1 + BETWEEN : row;
  const loads = seatLoads(state, { request, board, first, memory: m, outputs, limits });
  const { targets, inStep } = loads;
  const direct: Source[] = inputs.map((input) => ({ row: input, chip: spec }));
  const place = { board, row, inputs, targets };
  return loads.drive(request.show === 'loads' ? putDriver(state, place) : request.buffered ? putBuffer(state, place, inStep) : direct);
}

/** Resistors of the data switches. On the memory itself an LED pulls at its data pin while it is written: the red one most. */
function dataValues(request: BuildRequest, { spec }: Chosen): { pullDown: number; series: number } {
  const pullDown = pullDownFor(spec.released.leakage, spec.input.vil);
  const redLed = contentsOfKind(led, { colour: 'red' }).leds[0];
  if (request.buffered || !redLed) return { pullDown, series: seriesFor(spec, pullDown) };
  const { ohms } = limitFor({ ...redLed, chip: spec, side: 'high' }, Math.max(request.amps, ...request.outputs.map((o) => o.amps ?? 0)));
  return { pullDown, series: seriesFor(spec, pullDown, { junction: redLed.junction, ohms }) };
}

/** Bytes of one memory in plan form, all of them named: not every memory wakes up with FF where a plan says nothing. */
const imageOf = (request: BuildRequest, memory: number): Record<string, string> => everyRow(bytesOfRequest(request, memory).bytes);

function wantedOf(request: BuildRequest, { address, data }: Chosen, memories: readonly string[], leds: readonly string[]): PlanWanted {
  return {
    inputs: request.inputs.map((name, i) => ({ name, pin: `${memories[0]}.${address[i]}` })),
    outputs: request.outputs.map(({ name, activeLow }, i) => ({
      name,
      pin: `${memories[Math.floor(i / WORD)]}.${data[i % WORD]}`,
      led: leds[i] ?? '',
      ...(activeLow ? { activeLow: true as const } : {}),
    })),
    rules: [...(request.rules ?? [])],
    rows: Array.from(request.rows),
    ...(request.dontCare ? { dontCare: Array.from(request.dontCare) } : {}),
    ...(request.expressions ? { expressions: [...request.expressions] } : {}),
  };
}

function notesOf(request: BuildRequest, { spec, memories }: Chosen): string[] {
  const several = memories > 1;
  if (!request.byHand)
    return [
      several
        ? 'The memories already hold the image. Switch the supply on and set the inputs.'
        : 'The memory already holds the image. Switch the supply on and set the inputs.',
    ];
  const forgets = spec.word?.forgets;
  const state = several ? 'The memories are' : 'The memory is';
  return [
    forgets
      ? `${state} volatile: without supply ${several ? 'they lose their' : 'it loses its'} bytes, and at power-up they are undefined (X). Write them again each time.`
      : `${state} erased: every byte is FF until it is written.`,
    `To write a byte: close the /OE switch, set the address with the inputs and the byte with the ${several ? "memory's own " : ''}data switches, press and release ${several ? 'its' : 'the'} button. ` +
      `To read it back: open the /OE switch and all data switches.${forgets ? '' : ` After power-up the ${several ? 'memories ignore' : 'memory ignores'} writes for a few milliseconds.`}`,
  ];
}
