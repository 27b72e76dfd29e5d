/** What server and client say to each other: the bodies of /api, as schemas and types. */
import { type Static, Type } from 'typebox';

const closed = { additionalProperties: false } as const;

/** Every refusal, whatever its status: where, and one sentence that names the place, the value and the cure. */
export const Refusal = Type.Object({ at: Type.String(), says: Type.String({ minLength: 1 }) }, closed);
export type Refusal = Static<typeof Refusal>;

/** GET /api/health */
export const Health = Type.Object({ ok: Type.Literal(true), version: Type.String() }, closed);
export type Health = Static<typeof Health>;

/** GET /api/plans, in the order they are offered; each one's document is at /api/plans/:id, which refuses a stranger with 404. says: what it is and what there is to see. */
export const PlanList = Type.Array(Type.Object({ id: Type.String(), title: Type.String(), says: Type.String() }, closed));
export type PlanList = Static<typeof PlanList>;

const Ref = Type.Object(
  {
    kind: Type.Union(['part', 'pin', 'pole', 'wire', 'point', 'led', 'board'].map((k) => Type.Literal(k))),
    id: Type.String(),
  },
  closed,
);

const CheckedFinding = Type.Object(
  {
    code: Type.String(),
    severity: Type.Union(['damage-risk', 'fault', 'marginal', 'suggestion'].map((s) => Type.Literal(s))),
    at: Type.Array(Ref),
    /** what the rule has to say, by name: references, figures in SI units */
    data: Type.Record(Type.String(), Type.Unknown()),
    /** the switch positions or the press that show it, where they are not the plan's own */
    when: Type.Optional(Type.String()),
    /** the finding in words */
    says: Type.String(),
  },
  closed,
);

/**
 * POST /api/check: the text of a plan in, as application/json and 2 MiB at most; with status 200 this out, the worst finding first. What is refused comes as
 * a Refusal: 413 too large, 415 not JSON by its header, 422 no plan, or one that makes no circuit, 503 the check was given up, for time, memory or too many others.
 */
export const CheckReply = Type.Object({ findings: Type.Array(CheckedFinding) }, closed);
