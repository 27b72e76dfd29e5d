/** The images that memories come with: what each holds, the checksums of it, what its file is called, and how it gets in. */
import { fileName } from '../../shared/file-name.ts';
import type { Plan } from '../../shared/plan.ts';
import { howProgrammed, type Programmed, sayProgramming } from '../build/how-programmed.ts';
import { storedImage } from '../findings/store-table.ts';
import { type Checksums, checksumsOf } from '../logic/checksums.ts';
import type { Circuit } from '../run/circuit/circuit.ts';

/** One memory that is fitted with its bytes in it. */
export interface ProgrammedImage {
  readonly memory: string;
  readonly title: string;
  /** as the Table page saves it in binary */
  readonly file: string;
  readonly bytes: number;
  readonly checksums: Checksums;
  readonly how: Programmed;
  readonly says: string;
}

/** Memories of the plan that hold anything; an erased one has no image. */
export function programmedImages({ chips }: Pick<Circuit, 'chips'>, { title, memories }: Plan): readonly ProgrammedImage[] {
  return chips.flatMap(({ placed: { part, kind }, spec }): ProgrammedImage[] => {
    if (!spec.word || !memories[part.id]) return [];
    const { bytes } = storedImage(memories, { memory: part.id, address: spec.word.address });
    const file = fileName(`${title} ${part.id}`, 'bin');
    const how = howProgrammed(kind, spec);
    return [
      {
        memory: part.id,
        title: kind.title,
        file,
        bytes: bytes.length,
        checksums: checksumsOf(bytes),
        how,
        says: sayProgramming(how, part.id, file),
      },
    ];
  });
}
