/** Chips that stand on no bench: asked what they may pull at which levels, and nothing else. */
import type { Plan } from '../../../shared/plan.ts';
import type { Chip, ChipBench, ChipSpec } from '../../parts/part.ts';

type Rows = Plan['memories'][string];

interface Alone {
  readonly spec: ChipSpec;
  readonly cells: ChipBench['cells'];
  readonly volts: number;
  readonly chip: Chip;
}

/** By contents, then by part. */
const known = new WeakMap<object, Map<string, Alone>>();
const EMPTY = {};

/** The chip as its plan says it is, with so many volts of supply since long ago and nothing under way; made once for the same contents. */
export function chipAlone(spec: ChipSpec, part: string, contents: Rows | undefined, cells: ChipBench['cells'], volts: number): Chip {
  const key = contents ?? EMPTY;
  const byPart = known.get(key) ?? new Map<string, Alone>();
  known.set(key, byPart);
  const last = byPart.get(part);
  if (last && last.spec === spec && last.cells === cells && last.volts === volts) return last.chip;
  const ignored = () => {};
  const chip = spec.start(
    {
      part,
      cells,
      level: () => 'H',
      supply: () => volts,
      above: () => false,
      volts: () => 0,
      drive: ignored,
      perhaps: ignored,
      doubt: ignored,
      draw: ignored,
      moveContact: ignored,
      rebounds: () => [],
      alarm: ignored,
      report: ignored,
    },
    contents,
  );
  chip.begin(0);
  byPart.set(part, { spec, cells, volts, chip });
  return chip;
}
