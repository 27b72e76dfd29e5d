/** Bytes put into a memory from outside, as if it had come so to the bench: address and bytes as a person types them. */
import { done, failed, type Outcome } from '../../../shared/outcome.ts';
import { hex } from '../../units/hex.ts';
import type { Change } from '../changes.ts';
import { storing, withByte } from '../memory-writes.ts';
import type { EditContext } from './edit-context.ts';

/**
 * size: bytes of the memory. address: hexadecimal. bytes: pairs of hexadecimal digits, with or without gaps, for this address and those after it.
 * Fails with `image/not-a-byte`, `image/not-an-address` or `image/outside-memory`.
 */
export function storeBytes({ plan }: EditContext, id: string, size: number, address: string, bytes: string): Outcome<Change> {
  const last = hex(size - 1, 1);
  const at = address.trim().replace(/^0x/i, '');
  const first = /^[0-9a-f]+$/i.test(at) ? Number.parseInt(at, 16) : Number.NaN;
  if (!(first < size))
    return failed(
      'image/not-an-address',
      id,
      `"${address.trim()}" is no address of ${id}. Write a hexadecimal number from 0 to 0x${last}, such as 0x003.`,
    );
  const pairs =
    bytes
      .replace(/0x/gi, '')
      .replace(/\s+/g, '')
      .match(/.{1,2}/g) ?? [];
  const bad = pairs.find((p) => !/^[0-9a-f]{2}$/i.test(p));
  if (bad !== undefined || pairs.length === 0)
    return failed('image/not-a-byte', id, `"${bytes.trim()}" is no byte. Write two hexadecimal digits a byte, from 00 to FF, such as 5A.`);
  if (first + pairs.length > size)
    return failed(
      'image/outside-memory',
      id,
      `${pairs.length} bytes from 0x${at.toUpperCase()} on go past 0x${last}, the last address of ${id}. Write fewer, or begin earlier.`,
    );
  const addresses = pairs.map((_, i) => first + i);
  const after = pairs.reduce((image, p, i) => withByte(image, first + i, Number.parseInt(p, 16)), plan.memories[id]);
  return done(storing(plan, id, after, addresses));
}
