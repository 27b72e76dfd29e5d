/** The contract of figures: those of a kind of part, each with its source, those that one specimen carries, and how long a contact bounces. */

/** Where a figure comes from: a named text, 'common practice, no source', 'from memory', or 'derived: …'. */
export interface Figure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly source: string;
}

/** Figures of one specimen by the names of its kind's `params`, in SI units. */
export type Params = Readonly<Record<string, number | string | boolean>>;

/** How long a contact bounces after a move, on average and at most [s]. */
export interface Bounce {
  readonly mean: number;
  readonly most: number;
}
