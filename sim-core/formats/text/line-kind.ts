/** Kinds of lines: what one begins with, the fields that it says, and where in the plan it belongs. */
import type { Outcome } from '../../../shared/outcome.ts';
import type { Plan } from '../../../shared/plan.ts';
import { type Codec, EMPTY_WORD, type Fields, needed, type Said, TEXTS, value } from './clauses.ts';

/** The plan while it is read. */
export interface PlanDraft {
  readonly plan: Plan;
  /** number of the line that is read, from 1 */
  line: number;
  /** place in the plan → number of the line that it was first written in */
  readonly lines: Map<string, number>;
  /** a line says that the bench is meant as it stands */
  meantUnchanged?: boolean;
  /** contents with which the next line goes on: their last entry */
  open?: { readonly image: Readonly<Record<string, string>>; readonly address: string } | undefined;
}

export interface LineKind<F extends Fields = Fields> {
  /** what the line begins with: 'wire', 'wanted input' */
  readonly words: string;
  /** such a line, for whoever has to correct one */
  readonly example: string;
  /** the same for a line that begins with this kind of part */
  exampleOf?(kind: string): string;
  /** what comes after these words: an id; or all of the line is one text */
  readonly has?: 'id' | 'text';
  readonly fields: F;
  /** there is one such line, or one for each id */
  readonly once?: true;
  /** where in the plan it goes: 'parts/3' */
  path(plan: Plan, id: string): string;
  /** Puts what the line says into the plan; a refusal is a whole sentence. */
  put(said: Said<F>, draft: PlanDraft, id: string, kind: string): Outcome<unknown> | undefined;
  /** all lines of this kind that a plan has; `kind` stands where the first word differs from line to line */
  lines(plan: Plan): readonly { readonly kind?: string; readonly id?: string; readonly said: Said<F> }[];
}

export const lineKind = <F extends Fields>(kind: LineKind<F>): LineKind => kind;

/** Codecs for fields of a thing of the plan. */
type FieldsOf<T> = { readonly [N in keyof T]?: Codec<NonNullable<T[N]>> };

/** A line for each entry of a list: its id, if it has one, and its fields as they are. `list`: made, where the plan does not have it yet. `fallback`: what is meant where a line does not say it. */
export const entries = <T extends object>(
  { words, example, has, fields }: { words: string; example: string; has?: 'id'; fields: FieldsOf<T> & Fields },
  path: string,
  list: (plan: Plan, made?: true) => T[],
  fallback: Partial<T> = {},
): LineKind => ({
  words,
  example,
  ...(has && { has }),
  fields,
  path: (plan) => `${path}/${list(plan).length}`,
  put(said, { plan }, id) {
    list(plan, true).push({ ...(has && { id }), ...fallback, ...said } as T);
  },
  lines: (plan) => list(plan).map((said) => ({ ...('id' in said && { id: String(said.id) }), said: said as Said<Fields> })),
});

/** A line for each text of a list; of an optional one that is there and empty, one that says so. */
export const texts = (
  words: string,
  example: string,
  path: string,
  list: (plan: Plan, made?: true) => string[] | undefined,
  optional?: true,
): LineKind =>
  lineKind({
    words,
    example,
    has: 'text',
    fields: { texts: needed(value(TEXTS)) },
    path: (plan) => `${path}/${list(plan)?.length ?? 0}`,
    put(said, { plan }) {
      list(plan, true)?.push(...(said.texts.length === 0 && !optional ? [EMPTY_WORD] : said.texts));
      return undefined;
    },
    lines(plan) {
      const all = list(plan) ?? [];
      if (optional && list(plan)?.length === 0) return [{ said: { texts: [] } }];
      return all.map((text) => ({ said: { texts: [text] } }));
    },
  });
