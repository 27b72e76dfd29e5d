/** Function tables as data sheets print them, played row by row on a chip's bench. */
import { expect } from 'vitest';
import type { LogicBench } from './logic-bench.ts';

/**
 * A table as printed: names, a bar, names; then rows of L, H, X (don't care: both are tried), ↑ (a rising edge), and what the outputs are; Z lets go.
 * Several parts in one: `#` stands for the digits that follow the semicolon of the first line.
 */
export interface Row {
  readonly set: readonly (readonly [string, string])[];
  readonly see: readonly (readonly [string, string])[];
}

export function rowsOf(text: string): Row[] {
  const [head = '', ...rows] = text.trim().split('\n');
  const split = (line: string) => line.split('|').map((half) => half.trim().split(/\s+/));
  const [inputs = [], outputs = []] = split(head);
  return rows.map((line) => {
    const [set = [], see = []] = split(line);
    expect([set.length, see.length], line).toEqual([inputs.length, outputs.length]);
    return { set: inputs.map((n, i) => [n, set[i]!] as const), see: outputs.map((n, i) => [n, see[i]!] as const) };
  });
}

/** Levels first, edges last; each X both ways. */
export function play(bench: LogicBench, { set, see }: Row) {
  const free = set.filter(([, l]) => l === 'X').map(([n]) => n);
  const edges = set.filter(([, l]) => l === '↑').map(([n]) => n);
  for (let choice = 0; choice < 1 << free.length; choice++) {
    bench.set(Object.fromEntries(edges.map((n) => [n, 0 as const])));
    bench.set({
      ...Object.fromEntries(set.filter(([, l]) => l === 'L' || l === 'H').map(([n, l]) => [n, l === 'H' ? (1 as const) : (0 as const)])),
      ...Object.fromEntries(free.map((n, i) => [n, ((choice >> i) & 1) as 0 | 1])),
    });
    bench.set(Object.fromEntries(edges.map((n) => [n, 1 as const])));
    const names = see.map(([n]) => n);
    expect(bench.look(names), `${set.map((s) => s.join(' ')).join(', ')}; choice ${choice}`).toBe(see.map(([, l]) => l).join(''));
    for (const name of names) {
      // what is called high or low is so on the pin: levels of TTL, which every family here keeps without a load
      const level = bench.see(name);
      if (level === 'H') expect(bench.volts(name), name).toBeGreaterThan(2.4);
      if (level === 'L') expect(bench.volts(name), name).toBeLessThan(0.5);
    }
  }
}

export const one = (text: string, n: number | string) => text.replaceAll('#', String(n));
