/** `checksums PLAN`: the sum, CRC-16 and CRC-32 of what each memory holds, and of a read-out to compare with it. */
import type { Plan } from '../../shared/plan.ts';
import { buildCircuit, type Checksums, checksumsOf, done, failed, grouped, type Outcome, storedImage } from '../../sim-core/index.ts';
import { table } from './columns.ts';
import { answer, type ShellCommand } from './command.ts';
import { findPlan, readBytes } from './plan-file.ts';

export const CHECKSUMS: ShellCommand = {
  name: 'checksums',
  means: 'print the sum, CRC-16 and CRC-32 of all bytes that each memory holds, in hexadecimal',
  takes: 'PLAN',
  options: { 'read-out': { value: 'FILE', means: 'a binary file read out of a memory; its checksums are printed below' } },
  run({ words: [name = ''], values }) {
    const plan = findPlan(name);
    if (!plan.ok) return plan;
    const held = imagesIn(plan.value);
    if (!held.ok) return held;
    const read = values['read-out'] === undefined ? done([]) : readOut(values['read-out']);
    return answer(read.ok ? done([...held.value, ...read.value].map(summed)) : read, sayAll);
  },
};

interface NamedBytes {
  /** a memory such as 'U1', or a file */
  readonly of: string;
  readonly bytes: Uint8Array;
}

type Summed = Checksums & { readonly of: string; readonly bytes: number };

const summed = ({ of, bytes }: NamedBytes): Summed => ({ of, bytes: bytes.length, ...checksumsOf(bytes) });

function imagesIn(plan: Plan): Outcome<readonly NamedBytes[]> {
  const circuit = buildCircuit(plan, 'typical');
  if (!circuit.ok) return circuit;
  return done(
    circuit.value.chips.flatMap(({ placed: { part, kind }, spec: { word } }) =>
      word && kind.group === 'memory'
        ? [{ of: part.id, bytes: storedImage(plan.memories, { memory: part.id, address: word.address }).bytes }]
        : [],
    ),
  );
}

/** What a text of records begins with, Intel HEX or S-record: its letters are not the bytes of the memory. */
const RECORDS = /^\s*(:[0-9A-F]{2}|S\d[0-9A-F]{2})/i;

function readOut(file: string): Outcome<readonly NamedBytes[]> {
  const read = readBytes(file);
  if (!read.ok) return read;
  if (RECORDS.test(read.value.subarray(0, 64).toString('latin1')))
    return failed('image/not-binary', file, `${file} is a text of records, Intel HEX or S-record. Save the read-out as a binary file.`);
  return done([{ of: file, bytes: read.value }]);
}

const sayAll = (all: readonly Summed[]): string =>
  all.length === 0
    ? 'There is no memory on this bench.'
    : table([
        ['', 'bytes', 'sum', 'CRC-16', 'CRC-32'],
        ...all.map(({ of, bytes, sum, crc16, crc32 }) => [of, grouped(bytes), sum, crc16, crc32]),
      ]);
