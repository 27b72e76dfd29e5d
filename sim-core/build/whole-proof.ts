/** A whole proof, and what may have happened where its rows are not all right: the table beside what its LEDs showed, by the one comparison of images. */
import { done, type Outcome } from '../../shared/outcome.ts';
import type { Plan } from '../../shared/plan.ts';
import { beginProof, type Proving, type TableProof } from '../findings/table-proof.ts';
import { compareWords } from '../logic/compare/compare.ts';
import type { Options } from '../run/api.ts';
import { sayExplained, tableNames } from '../sentence/compared-images.ts';

/** The proof with what explains its differences; as it is where all rows are right or single rows are the simplest thing to say. */
export function explainedProof(
  { wanted }: Pick<Plan, 'wanted'>,
  { proof, shown, unknown }: Pick<Proving, 'proof' | 'shown' | 'unknown'>,
): TableProof {
  if (!wanted || proof.right === proof.rows || proof.disabled.length > 0) return proof;
  const all = 2 ** wanted.outputs.length - 1;
  const care = Uint16Array.from(wanted.rows, (_, row) => all & ~(wanted.dontCare?.[row] ?? 0));
  const seen = { words: shown, care: unknown.map((x) => all & ~x) };
  const found = compareWords({ words: Uint16Array.from(wanted.rows), care }, seen, wanted.outputs.length);
  const names = (columns: ReadonlyArray<{ readonly name: string }>) => columns.map((c) => c.name);
  const said = sayExplained(found, tableNames(names(wanted.inputs), names(wanted.outputs)));
  const isDoubtful = said.length > 0 && unknown.some((x, row) => (x & (care[row] ?? 0)) !== 0);
  // with so little known many things fit
  if (isDoubtful && found.fits.length > 1) return proof;
  const explained = isDoubtful ? [...said, 'LEDs that are undefined (X) are left out here.'] : said;
  return explained.length > 0 ? { ...proof, explained } : proof;
}

/** The whole proof at once. Fails with `card/no-switch`, `plan/…`, `run/no-address-switch`, `run/too-many-inputs`, `table/led-twice` or `table/none`. */
export function proveTable(plan: Plan, options: Partial<Options> = {}): Outcome<TableProof> {
  const begun = beginProof(plan, options);
  if (!begun.ok) return begun;
  begun.value.go(Number.POSITIVE_INFINITY);
  return done(explainedProof(plan, begun.value));
}
