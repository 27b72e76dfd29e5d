/** Names that rules speak of and a table does not have yet: which of them would be inputs, and which outputs. */
import { readRules } from './rules.ts';

/** Inputs and outputs that a table would get. */
export interface NewNames {
  readonly inputs: readonly string[];
  readonly outputs: readonly string[];
}

const NAME = /^(?:"([^"]+)"|([\p{L}_][\p{L}\p{N}_]*))(?!\s*\()/u;
/** More are not made in one act: a table has no more lines. */
const MOST = 32;

/** undefined: there is none, or with them the rules still could not be read. */
export function newNames(text: string, inputs: readonly string[], outputs: readonly string[]): NewNames | undefined {
  const found = { inputs: [] as string[], outputs: [] as string[] };
  for (let i = 0; i <= MOST; i++) {
    const read = readRules(text, [...inputs, ...found.inputs], [...outputs, ...found.outputs]);
    if (read.ok) return i > 0 ? found : undefined;
    const { code, at } = read.failure;
    const [, line, column] = /^line (\d+)(?:, column (\d+))?/.exec(at) ?? [];
    if (code !== 'rules/unknown-name' || line === undefined) return undefined;
    const written = text.split('\n')[Number(line) - 1] ?? '';
    // what is wrong before the = sign has no column
    const m = NAME.exec(column === undefined ? written.trimStart() : written.slice(Number(column) - 1));
    const name = m?.[1] ?? m?.[2];
    const of = column === undefined ? found.outputs : found.inputs;
    if (name === undefined || [...inputs, ...outputs, ...found.inputs, ...found.outputs].includes(name)) return undefined;
    of.push(name);
  }
  return undefined;
}
