/** A reference: how anything on the bench is pointed at, in findings, explanations and sentences. */

/** `id`: 'U1', 'U1.20' (pin by number), 'S1.3' (pole, from 1), 'W7', 'a12', 'LED3' or 'DS1.a' (LED), 'B1'. */
export interface Ref {
  readonly kind: 'part' | 'pin' | 'pole' | 'wire' | 'point' | 'led' | 'board';
  readonly id: string;
}
