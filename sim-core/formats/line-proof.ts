/** The line of a signed proof: its date, how many rows were seen, the fingerprint of what it was made of, who signed, and how the switches stood. */

import { done, failed, type Outcome } from '../../shared/outcome.ts';
import type { PlanProof } from '../../shared/plan.ts';
import type { TextToken } from './bench-words.ts';

const DATE = /^\d{4}-\d\d-\d\d$/;
const FINGERPRINT = /^[0-9a-f]{16}([0-9a-f]{48})?$/;

const STOOD = /^([A-Za-z][A-Za-z0-9_]{0,15}:[01-]{1,12}(,|$))*$/;

export const writeProof = ({ date, rows, fingerprint, by, switches }: PlanProof): string =>
  `proof ${date} rows=${rows} of=${fingerprint} by=${JSON.stringify(by)}${switches ? ` stood=${Object.entries(switches).map(([id, poles]) => `${id}:${poles}`)}` : ''}`;

export function readProof([date, ...rest]: readonly TextToken[]): Outcome<PlanProof> {
  const said = new Map(
    rest.map(({ bare, quoted }) => {
      const [name = '', value = ''] = bare.split('=', 2);
      return [name, quoted ?? value];
    }),
  );
  const [rows, of, by, stood] = [Number(said.get('rows')), said.get('of') ?? '', said.get('by'), said.get('stood')];
  if (
    !DATE.test(date?.bare ?? '') ||
    !Number.isInteger(rows) ||
    !FINGERPRINT.test(of) ||
    by === undefined ||
    said.size !== rest.length ||
    [...said.keys()].some((name) => !['rows', 'of', 'by', 'stood'].includes(name)) ||
    !STOOD.test(stood ?? '')
  )
    return failed(
      '',
      'a proof is written as: proof 2026-01-31 rows=32 of=… by="name" stood=S1:--,S2:1, with the digits that the bench was signed with. Prove the bench again, or take the line out.',
    );
  const switches = stood?.split(',').flatMap((s) => (s === '' ? [] : [s.split(':') as [string, string]]));
  return done({ date: date?.bare ?? '', by, rows, fingerprint: of, ...(switches ? { switches: Object.fromEntries(switches) } : {}) });
}
