/** The chips of a bench of blocks, as their levels and pulls are followed from row to row; one without supply pulls nothing. */
import type { Plan } from '../../../shared/plan.ts';
import { OFF } from '../../devices/network.ts';
import type { Chip, Level } from '../../parts/part.ts';
import { type BenchChip, GROUNDED, type MetalPlace, RAILED } from './assembly.ts';
import type { BenchBlocks } from './bench-blocks.ts';
import { chipAlone } from './chips-alone.ts';

/** An output where it stands: in a block, with what a pull counts in its state; or on a rail (block RAILED − r); or nowhere that feels it (GROUNDED). */
export interface OutputPlace {
  readonly block: number;
  readonly place: number;
  readonly weight: number;
}

const NOWHERE: OutputPlace = { block: GROUNDED, place: 0, weight: 0 };

/** A voltage of a rail at whose crossing the chip is told, or an input on the rail itself reads another level. */
interface Mark {
  readonly rail: number;
  readonly volts: number;
}

export interface StillChip {
  readonly chip: Chip;
  /** from here on it may do something [V] */
  readonly wakes: number;
  readonly supply: MetalPlace;
  readonly ground: MetalPlace;
  readonly marks: readonly Mark[];
  readonly outputs: readonly OutputPlace[];
  /** of its inputs, bit by bit */
  readonly levels: { value: number; unknown: number };
  readonly may: Uint8Array;
  /** by input and by output: 1 where its bond is burnt open, so that it reads X, or pulls nothing */
  readonly deaf: Uint8Array;
  readonly mute: Uint8Array;
  readonly rail: number;
  /** what it draws more while it works [S] */
  readonly works: number;
  draws: 'working' | 'resting';
  /** it has its supply; one that has too little in some row is not followed any further */
  readonly isAlive: boolean;
  stale: boolean;
}

/** Undefined where some chip needs more than levels. */
export function stillChips(bench: BenchBlocks, plan: Plan): readonly StillChip[] | undefined {
  const outputs = placesOfOutputs(bench);
  const chips: StillChip[] = [];
  for (const [k, of] of bench.chips.entries()) {
    const made = stillChip(bench, of, outputs[k] as OutputPlace[], plan);
    if (!made) return undefined;
    chips.push(made);
  }
  return chips;
}

function stillChip(bench: BenchBlocks, of: BenchChip, outputs: readonly OutputPlace[], plan: Plan): StillChip | undefined {
  const { part, rail, inputs, supply, ground } = of;
  const { site, deaf, mute, wakes } = of.chip;
  const { spec } = site;
  const volts = bench.rails[rail]?.model.volts ?? 0;
  const isAlive = rail >= 0 && volts >= site.certainFrom;
  const works = site.drains.working - site.drains.resting;
  // what one without supply holds makes no difference
  const chip = isAlive
    ? chipAlone(spec, part, plan.memories[part], plan.cells?.[part], volts)
    : chipAlone(spec, part, undefined, undefined, volts);
  if (!chip.mayPull && (isAlive || works !== 0)) return undefined;
  if (!isAlive && spec.supplyMarks.length === 0) return undefined;
  const levels = { value: 0, unknown: 0 };
  for (let i = 0; i < inputs.length; i++)
    putLevel(levels, i, (inputs[i] as MetalPlace).block >= 0 || deaf[i] === 1 ? 'X' : levelOn(bench, of, i));
  return {
    chip,
    wakes,
    supply,
    ground,
    marks: isAlive ? marksOf(of) : [],
    outputs,
    levels,
    may: new Uint8Array(site.outputs.length).fill(1 << OFF),
    deaf,
    mute,
    rail,
    works,
    draws: 'resting',
    isAlive,
    stale: true,
  };
}

/** By chip, then by output. */
function placesOfOutputs({ blocks, rails, chips }: BenchBlocks): OutputPlace[][] {
  const places: OutputPlace[][] = chips.map(({ chip }) => new Array<OutputPlace>(chip.outputs.length).fill(NOWHERE));
  const put = (chip: number, output: number, at: OutputPlace) => {
    (places[chip] as OutputPlace[])[output] = at;
  };
  for (const [block, { model, contacts, outputs }] of blocks.entries())
    for (const [place, { chip, output }] of outputs.entries())
      put(chip, output, { block, place, weight: model.weights[contacts.length + place] as number });
  for (const [r, rail] of rails.entries())
    for (const [place, { chip, output }] of rail.outputs.entries()) put(chip, output, { block: RAILED - r, place, weight: 0 });
  return places;
}

/** Of an input on ground or a rail. */
function levelOn({ rails }: BenchBlocks, { chip, inputs, rail }: BenchChip, input: number): Level {
  const { block } = inputs[input] as MetalPlace;
  const figures = chip.site.inputs[input]?.figures;
  const volts = block === GROUNDED ? 0 : (rails[RAILED - block]?.model.volts ?? 0);
  const whole = figures?.of === undefined ? 1 : (rails[rail]?.model.volts ?? 0);
  return !figures ? 'X' : volts <= figures.vil * whole ? 'L' : volts >= figures.vih * whole ? 'H' : 'X';
}

function marksOf({ chip: { site, marks }, rail, inputs }: BenchChip): Mark[] {
  const all = marks.map((volts): Mark => ({ rail, volts }));
  for (let i = 0; i < inputs.length; i++) {
    const { block } = inputs[i] as MetalPlace;
    const pin = site.inputs[i];
    if (block > RAILED || pin === undefined || pin.of !== undefined) continue;
    all.push({ rail: RAILED - block, volts: pin.figures.vil }, { rail: RAILED - block, volts: pin.figures.vih });
  }
  return all;
}

/** True: it was another one. */
export function putLevel(levels: { value: number; unknown: number }, input: number, level: Level): boolean {
  const { value, unknown } = levels;
  const bit = 1 << input;
  levels.value = level === 'H' ? value | bit : value & ~bit;
  levels.unknown = level === 'X' ? unknown | bit : unknown & ~bit;
  return levels.value !== value || levels.unknown !== unknown;
}
