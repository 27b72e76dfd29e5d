/** A logic chip's function as data: what each output is, from which inputs and which stored bits; and what is stored, when. */

/** What an output does. */
export const LOW = 0;
export const HIGH = 1;
export const RELEASED = 2;
export type Doing = typeof LOW | typeof HIGH | typeof RELEASED;

export interface OutputRule {
  readonly name: string;
  /** inputs it depends on, and the cell, if any */
  readonly of: readonly string[];
  readonly cell?: number;
  /** LOW, HIGH or RELEASED, from the inputs in the order of `of`, 1 for high, and the number in the cell last */
  is(...bits: number[]): number;
}

/** Bits that are kept together: a number from 0 to 2^bits − 1. */
export interface LogicFunctionState {
  readonly bits: number;
  readonly of: readonly string[];
  /** what it takes next, from the inputs in the order of `of` and the number it has */
  next(...bits: number[]): number;
}

/** When the cells take what is next: at a rising edge, as long as a pin has a level, or always. */
export type Taking =
  | { readonly at: 'edge'; readonly pin: string }
  | { readonly at: 'level'; readonly pin: string; readonly level: 'L' | 'H' }
  | { readonly at: 'all times' };

export interface LogicRule {
  readonly outputs: readonly OutputRule[];
  readonly cells?: readonly LogicFunctionState[];
  readonly takes?: Taking;
  /** while this pin is low every cell is 0, whatever else */
  readonly clear?: string;
}

/** Every input that a rule names, in the order of `pins`. */
export function inputsOf(rule: LogicRule, pins: readonly string[]): string[] {
  const named = new Set([...rule.outputs, ...(rule.cells ?? [])].flatMap((r) => r.of));
  if (rule.takes && rule.takes.at !== 'all times') named.add(rule.takes.pin);
  if (rule.clear !== undefined) named.add(rule.clear);
  return pins.filter((p) => named.has(p));
}

/** Rules that differ by a number only. */
export const many = <T>(count: number, make: (index: number) => T): T[] => Array.from({ length: count }, (_, i) => make(i));
