/** The line of a signed proof: its date, how many rows were seen, the fingerprint of what it was made of, and who signed. */
import type { PlanProof } from '../../shared/plan.ts';
import { done, failed, type Outcome } from '../outcome.ts';
import type { Word } from './bench-words.ts';

const DATE = /^\d{4}-\d\d-\d\d$/;
const FINGERPRINT = /^[0-9a-f]{64}$/;

export const writeProof = ({ date, rows, of, by }: PlanProof): string => `proof ${date} rows=${rows} of=${of} by=${JSON.stringify(by)}`;

export function readProof([date, ...rest]: readonly Word[]): Outcome<PlanProof> {
  const said = new Map(
    rest.map(({ bare, quoted }) => {
      const [name = '', value = ''] = bare.split('=', 2);
      return [name, quoted ?? value];
    }),
  );
  const [rows, of, by] = [Number(said.get('rows')), said.get('of') ?? '', said.get('by')];
  if (
    !DATE.test(date?.bare ?? '') ||
    !Number.isInteger(rows) ||
    !FINGERPRINT.test(of) ||
    by === undefined ||
    said.size !== rest.length ||
    rest.length > 3
  )
    return failed(
      '',
      'a proof is written as: proof 2026-01-31 rows=32 of=… by="name", with the 64 digits that the bench was signed with. Prove the bench again, or take the line out.',
    );
  return done({ date: date?.bare ?? '', by, rows, of });
}
