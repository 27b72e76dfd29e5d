/** A truth table and a few choices as a request to the builder. */
import type { TruthTable } from '../logic/truth-table.ts';
import type { LedColour } from '../parts/figures/junctions.ts';
import { type BuildRequest, type RequestedOutput, WORD } from './build-request.ts';

/** What a person chooses beside the table. */
export type Choices = Pick<
  BuildRequest,
  'title' | 'memory' | 'byHand' | 'show' | 'arrangement' | 'buffered' | 'amps' | 'rules' | 'expressions'
> & {
  /** names of outputs that switch on at 0 */
  readonly activeLow?: readonly string[];
  /** one colour for all LEDs; absent: they alternate */
  readonly colour?: LedColour;
  /** what is wanted of single outputs, by name, in place of what all have */
  readonly own?: Readonly<Record<string, Pick<RequestedOutput, 'colour' | 'amps'>>>;
};

/** Segments a to g: what a digit's word has without its point. */
const SEGMENTS_SHOWN = 7;
const DIGIT = 2 ** SEGMENTS_SHOWN - 1;

/** Every column and row of the table. Fourteen outputs on digits are two digits: a dark point is put between them. */
export function requestOfTable(table: TruthTable, { activeLow = [], colour, own = {}, ...rest }: Choices): BuildRequest {
  // two digits without points: each has a memory of its own, whose eighth bit is a point that stays dark
  const gap = rest.show === 'digit' && table.outputs.length === 2 * SEGMENTS_SHOWN ? SEGMENTS_SHOWN : undefined;
  const spread = (words: Uint16Array): number[] =>
    Array.from(words, (w) => (gap === undefined ? w : (w & (2 ** gap - 1)) | ((w >> gap) << WORD)));
  // where a digit may show anything, so may its point
  const withPoint = (dontCare: number): number => (gap !== undefined && (dontCare & DIGIT) === DIGIT ? dontCare | (1 << gap) : dontCare);
  const outputs = table.outputs.map(
    (name): RequestedOutput => ({
      name,
      ...(activeLow.includes(name) ? { activeLow: true } : {}),
      ...(colour ? { colour } : {}),
      ...own[name],
    }),
  );
  const point: RequestedOutput = { name: freeName('point', table), ...(outputs[0]?.activeLow ? { activeLow: true } : {}) };
  return {
    ...rest,
    inputs: table.inputs,
    outputs: gap === undefined ? outputs : [...outputs.slice(0, gap), point, ...outputs.slice(gap)],
    rows: spread(table.values),
    ...(table.dontCare.some((f) => f !== 0) ? { dontCare: spread(table.dontCare).map(withPoint) } : {}),
  };
}

function freeName(stem: string, { inputs, outputs }: TruthTable): string {
  const taken = [...inputs, ...outputs];
  let name = stem;
  for (let k = 2; taken.includes(name); k++) name = `${stem} ${k}`;
  return name;
}
