/** How much memory this process uses once its garbage has been collected. */
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

/** What one collection frees lets the next one free more. */
const COLLECTIONS = 3;

/** [bytes] */
export function bytesUsed(): number {
  setFlagsFromString('--expose-gc');
  const collect: unknown = runInNewContext('gc');
  if (typeof collect !== 'function') throw new Error('garbage cannot be collected when asked');
  for (let k = 0; k < COLLECTIONS; k++) collect();
  const { heapUsed, arrayBuffers } = process.memoryUsage();
  return heapUsed + arrayBuffers;
}
