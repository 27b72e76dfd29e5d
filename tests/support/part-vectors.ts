/** The vectors that stand in each part's file, by the part's id. */
import { partKind } from '../../sim-core/index.ts';
import type { Vector } from '../../sim-core/parts/part.ts';

const FILES = import.meta.glob<Readonly<Record<string, unknown>>>('../../sim-core/parts/*.ts', { eager: true });

/** A file's name is the id of its part. */
export const PART_VECTORS: ReadonlyMap<string, readonly Vector[]> = new Map(
  Object.entries(FILES).flatMap(([path, exported]) =>
    Object.entries(exported)
      .filter(([name]) => name.endsWith('Vectors'))
      .map(([, vectors]) => {
        const id = path.replace(/^.*\/|\.ts$/g, '');
        if (!partKind(id)) throw new Error(`${path} has vectors, and there is no part of that name`);
        return [id, (vectors as () => readonly Vector[])()] as const;
      }),
  ),
);
