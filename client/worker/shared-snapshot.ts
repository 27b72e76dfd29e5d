/**
 * The latest readings in memory that page and worker share, so that the frame after a flip can draw them. A message would come too late: after a
 * press or a key a browser holds messages back until it has painted, which is one frame more. Where memory cannot be shared the messages serve alone.
 */
import type { Readings } from '../../sim-core/index.ts';

/** Readings of the largest bench a plan can hold fit; a longer text is not put in, and its message serves. */
const BYTES = 4_000_000;
/** Int32 places before the text: number of the readings (0 while they are being written), length in bytes, edition of the bench. */
const [NUMBER, LENGTH, EDITION] = [0, 1, 2];
const HEAD_PLACES = 3;
const HEAD_BYTES = 4 * HEAD_PLACES;

export interface SharedSnapshot {
  readonly number: number;
  readonly edition: number;
  readonly readings: Readings;
}

/** undefined: this page may not share memory. */
export const makeSharedSnapshot = (): SharedArrayBuffer | undefined =>
  globalThis.crossOriginIsolated ? new SharedArrayBuffer(HEAD_BYTES + BYTES) : undefined;

const encoder = new TextEncoder();
const decoder = new TextDecoder();

/** Worker: lays readings in, over the last ones. number: counts up, from 1. */
export function putIn(box: SharedArrayBuffer, { number, edition, readings }: SharedSnapshot): void {
  const text = encoder.encode(JSON.stringify(readings));
  const head = new Int32Array(box, 0, HEAD_PLACES);
  if (text.length > BYTES) return;
  Atomics.store(head, NUMBER, 0);
  new Uint8Array(box, HEAD_BYTES, text.length).set(text);
  Atomics.store(head, LENGTH, text.length);
  Atomics.store(head, EDITION, edition);
  Atomics.store(head, NUMBER, number);
}

/** Page: readings newer than `last`, if whole ones lie there. */
export function takeOut(box: SharedArrayBuffer, last: number): SharedSnapshot | undefined {
  const head = new Int32Array(box, 0, HEAD_PLACES);
  const number = Atomics.load(head, NUMBER);
  if (number <= last) return undefined;
  const edition = Atomics.load(head, EDITION);
  const text = new Uint8Array(box, HEAD_BYTES, Atomics.load(head, LENGTH)).slice();
  // written over meanwhile: the message will bring them
  return Atomics.load(head, NUMBER) === number ? { number, edition, readings: JSON.parse(decoder.decode(text)) as Readings } : undefined;
}
