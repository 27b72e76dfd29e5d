/** A number of which some bits may be unknown. */

/** The bits set in `unknown` are not known; those bits of `value` are 0. */
export interface Partly {
  readonly value: number;
  readonly unknown: number;
}
