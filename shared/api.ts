/**
 * The HTTP interface under /api: the bodies of its replies, as schemas and types. All are JSON in UTF-8.
 *
 *   GET  /api/health      200 Health
 *   GET  /api/plans       200 PlanList
 *   GET  /api/plans/:id   200 the plan of a demonstration; 404 Refusal (api/not-found)
 *   GET  /api/schema/plan 200 the JSON Schema of a plan, as in shared/plan.schema.json
 *   POST /api/check       a plan as application/json, 2 MiB at most; 200 CheckReply, else a Refusal:
 *                         413 api/too-large; 415 api/wrong-type; 422 the plan cannot be read or built (plan/…, table/…);
 *                         503 api/busy or api/gave-up
 *
 * Any other path under /api: 404 Refusal (api/not-found). A request that cannot be read: 400 (api/bad-request). A fault of the server: 500 (api/internal).
 */
import { type Static, Type } from 'typebox';
import { FAILURES, type FailureCode } from './failure-codes.ts';

const closed = { additionalProperties: false } as const;

/**
 * Every refusal, whatever its status. code: the kind of failure, one of shared/codes.md. at: a path into the plan such as `parts/3/at`, a line of the text, or
 * the address asked for. says: one sentence that names the place, the value and the cure.
 */
export const Refusal = Type.Object(
  {
    code: Type.Unsafe<FailureCode>(Type.Union(Object.keys(FAILURES).map((code) => Type.Literal(code)))),
    at: Type.String(),
    says: Type.String({ minLength: 1 }),
  },
  closed,
);
export type Refusal = Static<typeof Refusal>;

/** version: of the program, as in package.json. */
export const Health = Type.Object({ ok: Type.Literal(true), version: Type.String() }, closed);
export type Health = Static<typeof Health>;

/** The demonstrations in the order they are offered. says: what the bench is and what there is to see. teaches: what there is to learn; without it, it is a riddle. */
export const PlanList = Type.Array(
  Type.Object({ id: Type.String(), title: Type.String(), says: Type.String(), teaches: Type.Optional(Type.String()) }, closed),
);
export type PlanList = Static<typeof PlanList>;

/** A thing on the bench. id: `U1`, `U1.8` for a pin, `W3`, `B1`, a tie point such as `a12`, an LED such as `LED3` or `DIS1.a`. */
const Ref = Type.Object(
  {
    kind: Type.Union(['part', 'pin', 'pole', 'wire', 'point', 'led', 'board'].map((k) => Type.Literal(k))),
    id: Type.String(),
  },
  closed,
);

/**
 * code: the rule, one of shared/codes.md. at: the things that the finding is about, the main one first. data: what the rule has to say, by name: references, and
 * figures in SI units (V, A, s, ohm, W). when: the switch positions or the press that show it, where they are not the plan's own. says: the finding with figure,
 * limit and cure.
 */
const CheckedFinding = Type.Object(
  {
    code: Type.String(),
    severity: Type.Union(['damage-risk', 'fault', 'marginal', 'suggestion'].map((s) => Type.Literal(s))),
    at: Type.Array(Ref),
    data: Type.Record(Type.String(), Type.Unknown()),
    when: Type.Optional(Type.String()),
    says: Type.String(),
  },
  closed,
);

/**
 * The findings of a dry run (supply on, every button pressed, the table's rows set), the worst first. rows: of the table, where its rows can be gone through, so
 * many of so many were tried; off: supplies that the plan has off, which were on for all of it.
 */
export const CheckReply = Type.Object(
  {
    findings: Type.Array(CheckedFinding),
    rows: Type.Optional(Type.Object({ tried: Type.Integer(), of: Type.Integer() }, closed)),
    off: Type.Optional(Type.Array(Type.String())),
  },
  closed,
);
