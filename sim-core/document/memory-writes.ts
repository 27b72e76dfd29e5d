/** Bytes put into a memory from outside, and a new part in an old one's place: what was told of the cells before holds no more. */
import type { Plan, PlanCells, PlanPart } from '../../shared/plan.ts';
import { hexByte } from '../units/hex.ts';
import { type Change, join, setEntry } from './changes.ts';
import { digitsByAddress, isByteAlike, rowAddress } from './memory-rows.ts';

type Image = Plan['memories'][string];

/** The memory holds `after` from now on. Bytes that differ from those before, and those at `certain`, have no uncertain bits and no half-programmed ones. */
export function storing(plan: Plan, id: string, after: Image | undefined, certain: readonly number[] = []): Change {
  const before = plan.memories[id];
  const change = setEntry(plan, 'memories', id, after);
  const cells = plan.cells?.[id];
  if (!cells) return change;
  const [was, is] = [digitsByAddress(before), digitsByAddress(after)];
  const put = new Set(certain);
  const renewed = (address: number) => put.has(address) || !isByteAlike(was, is, address);
  const { uncertain, charge, writes } = cells;
  const [doubts, charges] = [without(uncertain, 2, renewed), without(charge, 32, renewed)];
  const left: PlanCells = {
    ...(doubts ? { uncertain: doubts } : {}),
    ...(charges ? { charge: charges } : {}),
    ...(writes ? { writes } : {}),
  };
  return join(change, setEntry(plan, 'cells', id, Object.keys(left).length > 0 ? left : undefined));
}

/** The image with one byte more, or another one there. Rows that a plan has stay its rows; a byte right after one makes it longer. */
export function withByte(image: Image | undefined, address: number, byte: number): Image {
  const rows = Object.entries(image ?? {});
  const text = hexByte(byte);
  const within = rows.find(([first, bytes]) => {
    const at = 2 * (address - Number.parseInt(first, 16));
    return at >= 0 && at < bytes.length;
  });
  if (within) {
    const [first, bytes] = within;
    const at = 2 * (address - Number.parseInt(first, 16));
    return { ...image, [first]: bytes.slice(0, at) + text + bytes.slice(at + 2) };
  }
  const before = rows.find(([first, bytes]) => Number.parseInt(first, 16) + bytes.length / 2 === address && bytes.length < LONGEST_ROW);
  return before ? { ...image, [before[0]]: before[1] + text } : { ...image, [rowAddress(address)]: text };
}

/** Digits that a row of a plan takes. */
const LONGEST_ROW = 2048;

/** A part of the same kind, undamaged and unworn, with the same bytes in it. */
export function replacing(plan: Plan, before: PlanPart): Change {
  const { damaged: _, ...after } = before;
  const change: Change = { op: 'replace', list: 'parts', before, after };
  return plan.cells?.[before.id] ? join(change, setEntry(plan, 'cells', before.id, undefined)) : change;
}

/** Rows without some of their bytes. */
function without(rows: Image | undefined, digits: number, gone: (address: number) => boolean): Image | undefined {
  const left: Image = {};
  for (const [first, text] of Object.entries(rows ?? {})) {
    let name = '';
    for (const [address, byte] of digitsByAddress({ [first]: text }, digits)) {
      if (gone(address)) name = '';
      else if (name) left[name] += byte;
      else {
        name = rowAddress(address);
        left[name] = byte;
      }
    }
  }
  return Object.keys(left).length > 0 ? left : undefined;
}
