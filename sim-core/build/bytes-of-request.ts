/** The bytes that a request asks of each memory: the table's words, eight outputs a memory, those that are active low inverted. */
import { type BuildRequest, type RequestedOutput, WORD } from './build-request.ts';

/** The outputs of one memory, D0 first; memories count from 0. */
export const outputsOf = ({ outputs }: Pick<BuildRequest, 'outputs'>, memory: number): readonly RequestedOutput[] =>
  outputs.slice(WORD * memory, WORD * (memory + 1));

/** bytes: one a row of the table, a bit that may be anything as its row has it. given: the bits of each that must be so. */
export function bytesOfRequest(request: BuildRequest, memory: number): { readonly bytes: Uint8Array; readonly given: Uint8Array } {
  const outputs = outputsOf(request, memory);
  const used = 2 ** outputs.length - 1;
  const flip = outputs.reduce((mask, o, bit) => (o.activeLow ? mask | (1 << bit) : mask), 0);
  const word = (words: ArrayLike<number> | undefined, row: number) => ((words?.[row] ?? 0) >> (WORD * memory)) & used;
  const { length } = request.rows;
  return {
    bytes: Uint8Array.from({ length }, (_, row) => word(request.rows, row) ^ flip),
    given: Uint8Array.from({ length }, (_, row) => used & ~word(request.dontCare, row)),
  };
}
