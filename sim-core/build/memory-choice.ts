/** Which memories a request could be built with, and why not with the others. */
import { PARTS } from '../parts/catalogue.ts';
import type { BuildRequest } from './build-request.ts';
import { completed } from './builder-state.ts';
import { chipOf } from './kind-contents.ts';

/** A kind of memory, and why it cannot be used if it cannot. */
export interface MemoryChoice {
  readonly kind: string;
  readonly title: string;
  readonly addressPins: number;
  /** absent: it can be chosen */
  readonly refusal?: string;
}

/** All memories, in the order of Parts; a refusal goes on from the memory's name, without a full stop. */
export function memoryChoices({ inputs, byHand }: Pick<BuildRequest, 'inputs' | 'byHand'>): readonly MemoryChoice[] {
  return PARTS.filter((k) => k.group === 'memory').flatMap((kind): MemoryChoice[] => {
    const { word, toRead } = chipOf(kind, completed(kind, { id: 'U1', kind: kind.id }));
    if (!word) return [];
    const addressPins = word.address.length;
    const refusal =
      inputs.length > addressPins
        ? `${addressPins} address pins, and the table has ${inputs.length} inputs`
        : byHand && !('/WE' in (toRead ?? {}))
          ? 'it cannot be written by hand on the bench'
          : !byHand && word.forgets
            ? 'it is volatile, so an image cannot be loaded in advance; it can be written by hand'
            : undefined;
    return [{ kind: kind.id, title: kind.title, addressPins, ...(refusal ? { refusal } : {}) }];
  });
}
