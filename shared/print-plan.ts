/** A plan as the text of its document: a part, a wire or a board on one line each, so that a change to one shows as one line. */
import type { Plan } from './plan.ts';

const WIDTH = 140;

/** The whole value on one line, with air inside braces. */
function flat(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(flat).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).map(([k, v]) => `${JSON.stringify(k)}: ${flat(v)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

function print(value: unknown, depth: number, before: number): string {
  const line = flat(value);
  const isLeaf = typeof value !== 'object' || value === null || Object.keys(value).length === 0;
  const isRow = Array.isArray(value) && value.every((v) => typeof v === 'number');
  if (isLeaf || isRow || (depth >= 2 && before + line.length < WIDTH)) return line;
  const indent = '  '.repeat(depth + 1);
  const lines = Array.isArray(value)
    ? value.map((v) => indent + print(v, depth + 1, indent.length))
    : Object.entries(value).map(([k, v]) => {
        const key = `${indent}${JSON.stringify(k)}: `;
        return key + print(v, depth + 1, key.length);
      });
  const [open, close] = Array.isArray(value) ? '[]' : '{}';
  return `${open}\n${lines.join(',\n')}\n${'  '.repeat(depth)}${close}`;
}

export const printPlan = (plan: Plan): string => `${print(plan, 0, 0)}\n`;
