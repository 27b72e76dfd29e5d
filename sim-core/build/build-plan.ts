/** From a truth table to a complete bench: memories, what hangs on them, and the board that hands work on, every pin tied and every value computed. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { Plan, PlanBoard, PlanWanted } from '../../shared/plan.ts';
import { everyRow } from '../document/memory-rows.ts';
import { partKind } from '../parts/catalogue.ts';
import { led } from '../parts/led.ts';
import type { ChipSpec, PartKind } from '../parts/part.ts';
import { resistor } from '../parts/resistor.ts';
import { type BuildRequest, type RequestedOutput, WORD } from './build-request.ts';
import { type BuilderState, bridge, finish, newBuilderState, type Row, railBeside, type Seated, tap, tie } from './builder-state.ts';
import { bareMemory, power } from './common-sections.ts';
import { limitsOf } from './current-limits.ts';
import { putBuffer, putDriver, type Source } from './drivers.ts';
import { chipOf, sheetOf } from './kind-contents.ts';
import { putLoads } from './loads.ts';
import { checkRequest, memoriesFor } from './request-checks.ts';
import { handsOn, inputSwitches, putEnable, putInputs, putWriter } from './switch-board.ts';
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

/**
 * The bench for a wish, or the sentence that says what of it cannot be built.
 * Fails with `build/…`, `plan/…`, `table/name-taken`, `table/no-columns` or `table/wrong-row-count`.
 */
export function buildPlan(wish: BuildRequest): Outcome<Plan> {
  const chosen = choose(wish);
  return chosen.ok ? done(compose(wish, chosen.value)) : chosen;
}

function choose(wish: BuildRequest): Outcome<Chosen> {
  const kind = partKind(wish.memory);
  const spec = kind && kind.group === 'memory' ? chipOf(kind, fallbackParams(kind)) : undefined;
  if (!kind || !spec?.word)
    return failed(
      'build/unknown-memory',
      'memory',
      `There is no memory called ${wish.memory}. Choose one from the Memories group in Parts.`,
    );
  const buildable = checkRequest(wish, kind, spec);
  if (!buildable.ok) return buildable;
  const { address, data } = spec.word;
  const chosen = { kind, spec, address, data, memories: memoriesFor(wish) };
  if (!wish.byHand) return done(chosen);
  const network = writeNetworkFor(kind);
  return network.ok ? done({ ...chosen, network: network.value }) : network;
}

const fallbackParams = (kind: PartKind) => Object.fromEntries(kind.params.map((p) => [p.name, p.fallback]));

const outputsOf = (wish: BuildRequest, memory: number): readonly RequestedOutput[] =>
  wish.outputs.slice(WORD * memory, WORD * (memory + 1));

function compose(wish: BuildRequest, chosen: Chosen): Plan {
  const { kind, spec, address, data, memories, network } = chosen;
  const draft = newBuilderState([...Array.from({ length: memories }, () => 'board-63' as const), wish.byHand ? 'board-63' : 'board-30']);
  const supply = power(draft);
  const bench = handsOn(draft.boards[memories] as PlanBoard);
  const seated = draft.boards.slice(0, memories).map((board) => {
    const fixed: Readonly<Record<string, null>> = wish.byHand ? { '/OE': null, '/WE': null } : {};
    const memory = bareMemory(draft, kind, { board, column: 'd', row: MEMORY_ROW }, fixed);
    for (const pin of address.slice(wish.inputs.length)) tie(draft, memory.row(pin), '-', 'grey');
    return { board, memory };
  });
  const leds = seated.flatMap(({ board, memory }, m) => putOutputs(draft, wish, chosen, board, memory, m));
  // the memory nearest to the hands comes first, the others hang on it
  const near = [...seated].reverse();
  const rowsOf = (pin: string): Row[] => near.map(({ memory }) => memory.row(pin));
  const pullDown = pullDownFor(memories * spec.input.leakage, spec.input.vil);
  const switches = putInputs(
    draft,
    bench,
    wish.inputs.map((name, i) => ({ name, to: rowsOf(address[i] ?? '') })),
    pullDown,
  );
  const poles: Record<string, boolean[]> = { [supply]: [false] };
  for (const [k, { count }] of inputSwitches(wish.inputs.length).entries())
    poles[switches[k] ?? ''] = Array.from({ length: count }, () => false);
  if (network) {
    for (const id of putEnable(draft, bench, rowsOf('/OE'), pullDown)) poles[id] = [false];
    for (const [m, { memory }] of seated.entries()) {
      const all = data.map((pin) => memory.row(pin));
      const used = all.slice(0, outputsOf(wish, m).length);
      const values = dataValues(wish, chosen);
      // a bit that nobody looks at must not float while its byte is written
      for (const row of all.slice(used.length))
        bridge(draft, resistor, 'R', tap(draft, row), railBeside(draft, row, '-'), { params: { ohms: values.pullDown } });
      const { data: id } = putWriter(
        draft,
        bench,
        { data: used, strobe: memory.row('/WE'), network, ...values },
        memories > 1 ? memory.id : undefined,
      );
      poles[id] = used.map(() => false);
    }
  }
  const ids = seated.map(({ memory }) => memory.id);
  return finish(draft, {
    title: wish.title,
    memories: wish.byHand ? {} : Object.fromEntries(ids.map((id, m) => [id, imageOf(wish, m)])),
    wanted: wantedOf(wish, chosen, ids, leds),
    notes: notesOf(wish, chosen),
    switches: poles,
  });
}

/** Buffer and loads of one memory; returns each output's LED. */
function putOutputs(
  draft: BuilderState,
  wish: BuildRequest,
  { data, spec }: Chosen,
  board: PlanBoard,
  memory: Seated,
  m: number,
): string[] {
  const outputs = outputsOf(wish, m);
  const rows = data.slice(0, outputs.length).map((pin) => memory.row(pin));
  const direct: Source[] = rows.map((row) => ({ row, chip: spec }));
  const sources = wish.show === 'loads' ? putDriver(draft, board, rows) : wish.buffered ? putBuffer(draft, wish, board, rows) : direct;
  const limits = limitsOf(wish)?.slice(WORD * m, WORD * (m + 1)) ?? [];
  return putLoads(draft, { wish, board, sources, outputs, limits });
}

/** Resistors of the data switches. On the memory itself an LED pulls at its data pin while it is written: the red one most. */
function dataValues(wish: BuildRequest, { spec }: Chosen): { pullDown: number; series: number } {
  const pullDown = pullDownFor(spec.released.leakage, spec.input.vil);
  const redLed = sheetOf(led, { colour: 'red' }).leds[0];
  if (wish.buffered || !redLed) return { pullDown, series: seriesFor(spec, pullDown) };
  const { ohms } = limitFor(
    { ...redLed, chip: spec, side: 'high', leds: Math.min(WORD, wish.outputs.length) },
    Math.max(wish.amps, ...wish.outputs.map((o) => o.amps ?? 0)),
  );
  return { pullDown, series: seriesFor(spec, pullDown, { junction: redLed.junction, ohms }) };
}

/** Bytes of one memory in plan form, all of them named: not every memory wakes up with FF where a plan says nothing. */
function imageOf(wish: BuildRequest, memory: number): Record<string, string> {
  const outputs = outputsOf(wish, memory);
  const flip = outputs.reduce((mask, o, bit) => (o.activeLow ? mask | (1 << bit) : mask), 0);
  const byteAt = (row: number) => ((((wish.rows[row] ?? 0) >> (WORD * memory)) & (2 ** outputs.length - 1)) ^ flip) & 0xff;
  return everyRow(Uint8Array.from({ length: wish.rows.length }, (_, row) => byteAt(row)));
}

function wantedOf(wish: BuildRequest, { address, data }: Chosen, memories: readonly string[], leds: readonly string[]): PlanWanted {
  return {
    inputs: wish.inputs.map((name, i) => ({ name, pin: `${memories[0]}.${address[i]}` })),
    outputs: wish.outputs.map(({ name, activeLow }, i) => ({
      name,
      pin: `${memories[Math.floor(i / WORD)]}.${data[i % WORD]}`,
      led: leds[i] ?? '',
      ...(activeLow ? { activeLow: true as const } : {}),
    })),
    rules: [...(wish.rules ?? [])],
    rows: Array.from(wish.rows),
    ...(wish.free ? { dontCare: Array.from(wish.free) } : {}),
    ...(wish.expressions ? { expressions: [...wish.expressions] } : {}),
  };
}

function notesOf(wish: BuildRequest, { spec, memories }: Chosen): string[] {
  const several = memories > 1;
  if (!wish.byHand)
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
