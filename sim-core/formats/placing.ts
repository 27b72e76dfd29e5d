/** How bytes from a file find their place in a memory: too far, twice given, and gaps between them are told. */

import { grouped } from '../../shared/grouped.ts';
import type { Failure } from '../../shared/outcome.ts';
import { type MemoryImage, spansOf } from '../logic/memory-image.ts';
import { hexAddress, hexByte } from '../units/hex.ts';

/** Where bytes from a file may go: how many the memory holds, and from which address on. */
export interface MemoryPlace {
  /** bytes that the memory has */
  readonly size: number;
  /** what stands where the file gives nothing */
  readonly fill?: number;
  /** address in the file that is address 0 of the memory */
  readonly from?: number;
}

/** What a file of bytes held: the image, and what should be said about it. */
export interface FileRead {
  readonly image: MemoryImage;
  /** sentences on what is well but worth knowing, such as gaps */
  readonly remarks: readonly string[];
}

export interface Placer {
  /** One byte of line `line`, from 1; a failure if it has no place. */
  put(address: number, byte: number, line: number): Failure | undefined;
  finish(): FileRead;
}

export function makePlacer({ size, fill = 0xff, from = 0 }: MemoryPlace): Placer {
  const bytes = new Uint8Array(size).fill(fill);
  const given = new Uint8Array(size);
  /** line that gave each byte, for naming both where two give it */
  const giver = new Uint32Array(size);
  return {
    put(address, byte, line) {
      const a = address - from;
      const at = `line ${line}`;
      const named = hexAddress(address, size + from);
      if (a < 0)
        return {
          code: 'image/outside-memory',
          at,
          says: `${at}: address ${named} is before ${hexAddress(from)}, where this memory begins. Begin it at ${named} or earlier.`,
        };
      if (a >= size)
        return {
          code: 'image/outside-memory',
          at,
          says: `${at}: address ${named} is past the end of the memory; its ${grouped(size)} bytes reach to ${hexAddress(from + size - 1)}. Choose a larger memory, or say at which address of the file it begins.`,
        };
      if (given[a] !== 0)
        return {
          code: 'image/address-twice',
          at,
          says: `${at}: address ${named} is given twice: ${hexByte(bytes[a] ?? 0)} by line ${giver[a]}, ${hexByte(byte)} by line ${line}. Remove one of the lines.`,
        };
      bytes[a] = byte;
      given[a] = 0xff;
      giver[a] = line;
      return undefined;
    },
    finish() {
      const image = { bytes, given };
      return { image, remarks: remarksOn(image, from, fill) };
    },
  };
}

/** Sentences name no more gaps than this. */
const NAMED = 4;

export function remarksOn(image: MemoryImage, from: number, fill: number): string[] {
  const spans = spansOf(image);
  const size = image.bytes.length;
  if (spans.length === 0) return [`The file gives no bytes; all ${grouped(size)} stay ${hexByte(fill)}.`];
  const address = (a: number) => hexAddress(from + a, from + size);
  const gaps = spansOf(image, false);
  if (gaps.length === 0) return [];
  const said = gaps.slice(0, NAMED).map(({ from: a, to }) => (to - a === 1 ? address(a) : `${address(a)} to ${address(to - 1)}`));
  const more = gaps.length > NAMED ? ` and ${grouped(gaps.length - NAMED)} more gaps` : '';
  const missing = gaps.reduce((n, g) => n + g.to - g.from, 0);
  return [
    `The file does not give ${said.join(', ')}${more}: ${missing === 1 ? 'this byte stays' : `these ${grouped(missing)} bytes stay`} ${hexByte(fill)}.`,
  ];
}
