/** From a truth table to a complete bench, not yet proven: memories, their loads, and the board with the switches, every pin tied and every value computed. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanBoard, PlanWanted } from '../../shared/plan.ts';
import { everyRow } from '../document/memory-rows.ts';
import { partKind } from '../parts/catalogue.ts';
import { led } from '../parts/led.ts';
import type { ChipSpec, PartKind } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { type BuildRequest, memoriesFor, WORD } from './build-request.ts';
import {
  type BuilderState,
  bridge,
  finish,
  newBuilderState,
  type Row,
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
import { putLoads } from './loads.ts';
import { checkRequest } from './request-checks.ts';
import { inputSwitches, newSwitchBoard, putEnable, putInputs, putWriteControls } from './switch-board.ts';
import { limitFor, pullDownFor, seriesFor } from './value-selection.ts';
import { type WriteNetwork, writeNetworkFor } from './write-network.ts';

const MEMORY_ROW = 3;

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
  return chosen.ok ? done(compose(request, chosen.value)) : chosen;
}

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

function compose(request: BuildRequest, chosen: Chosen): DraftedPlan {
  const { kind, spec, address, data, memories, network } = chosen;
  const state = newBuilderState(
    [...Array.from({ length: memories }, () => 'board-63' as const), request.byHand ? 'board-63' : 'board-30'],
    [...request.inputs, ...request.outputs.map((o) => o.name)],
  );
  const supply = power(state);
  const bench = newSwitchBoard(state.boards[memories] as PlanBoard);
  const seated = state.boards.slice(0, memories).map((board) => {
    const fixed: Readonly<Record<string, null>> = request.byHand ? { '/OE': null, '/WE': null } : {};
    const memory = bareMemory(state, kind, { board, column: 'd', row: MEMORY_ROW }, fixed);
    for (const pin of address.slice(request.inputs.length)) tie(state, memory.row(pin), '-', 'grey');
    return { board, memory };
  });
  const leds = seated.flatMap(({ board, memory }, m) => putOutputs(state, request, chosen, board, memory, m));
  // the memory nearest to the switches comes first, the others are wired on from it
  const near = [...seated].reverse();
  const rowsOf = (pin: string): Row[] => near.map(({ memory }) => memory.row(pin));
  const pullDown = pullDownFor(memories * spec.input.leakage, spec.input.vil);
  const switches = putInputs(
    state,
    bench,
    request.inputs.map((name, i) => ({ name, to: rowsOf(address[i] ?? '') })),
    pullDown,
  );
  const poles: Record<string, boolean[]> = { [supply]: [false] };
  for (const [k, { count }] of inputSwitches(request.inputs.length).entries())
    poles[switches[k] ?? ''] = Array.from({ length: count }, () => false);
  if (network) {
    for (const id of putEnable(state, bench, rowsOf('/OE'), pullDown)) poles[id] = [false];
    for (const [m, { memory }] of seated.entries()) {
      const all = data.map((pin) => memory.row(pin));
      const used = all.slice(0, outputsOf(request, m).length);
      const values = dataValues(request, chosen);
      // an unused bit must not float while its byte is written
      for (const row of all.slice(used.length))
        bridge(state, resistor, 'R', takeFreeHole(state, row), railBeside(state, row, '-'), { params: { ohms: values.pullDown } });
      const { data: id } = putWriteControls(
        state,
        bench,
        { data: used, strobe: memory.row('/WE'), network, ...values },
        memories > 1 ? memory.id : undefined,
      );
      poles[id] = used.map(() => false);
    }
  }
  const ids = seated.map(({ memory }) => memory.id);
  const images = Object.fromEntries(ids.map((id, m) => [id, imageOf(request, m)]));
  const plan = finish(state, {
    title: request.title,
    memories: request.byHand ? {} : images,
    wanted: wantedOf(request, chosen, ids, leds),
    notes: notesOf(request, chosen),
    switches: poles,
  });
  return { plan, loaded: { ...plan, memories: images } };
}

/** Buffer and loads of one memory; returns each output's LED. */
function putOutputs(
  state: BuilderState,
  request: BuildRequest,
  { data, spec }: Chosen,
  board: PlanBoard,
  memory: SeatedPart,
  m: number,
): string[] {
  const outputs = outputsOf(request, m);
  const rows = data.slice(0, outputs.length).map((pin) => memory.row(pin));
  const direct: Source[] = rows.map((row) => ({ row, chip: spec }));
  const sources =
    request.show === 'loads' ? putDriver(state, board, rows) : request.buffered ? putBuffer(state, request, board, rows) : direct;
  const limits = limitsOf(request)?.slice(WORD * m, WORD * (m + 1)) ?? [];
  return putLoads(state, { request, board, memory: m, sources, outputs, limits });
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
