/** One sentence for a document that does not fit its JSON Schema: the path, the value found there, and what would fit. */
import type { TLocalizedValidationError } from 'typebox/error';
import { grouped } from './grouped.ts';
import { quotedValue, shortened } from './quoted.ts';

type Misfit = TLocalizedValidationError;
type Misplaced = { readonly at: string; readonly says: string };

/** The first misfit in the order of the schema, put into words. Paths are written `parts/3/at`. */
export function sayMisfit(document: unknown, schema: unknown, all: readonly Misfit[]): Misplaced {
  const misfit = choose(all);
  if (!misfit) throw new Error('a document without misfits needs no words');
  const here = find(document, misfit.instancePath);
  const at = misfit.instancePath.slice(1) || 'the plan';
  const sentence = (place: string, rest: string): Misplaced => ({ at: place, says: `${place} ${rest}` });
  const below = (name: string) => (misfit.instancePath === '' ? name : `${at}/${name}`);

  if (misfit.keyword === 'required') {
    const [name = ''] = misfit.params.requiredProperties;
    return sentence(
      below(name),
      `is missing${called(here)}: add it, ${wanted(find(schema, `${misfit.schemaPath.slice(1)}/properties/${name}`))}.`,
    );
  }
  if (misfit.keyword === 'additionalProperties') {
    const [name = ''] = misfit.params.additionalProperties;
    return sentence(below(shortened(name)), stray(find(schema, misfit.schemaPath.slice(1))));
  }
  const [, holder = '', name = ''] = /^(.*)\/(.*)$/s.exec(misfit.instancePath) ?? [];
  if (misfit.keyword === 'boolean' && !Array.isArray(find(document, holder))) {
    const place = [...holder.split('/').slice(1), shortened(name)].join('/');
    return sentence(place, stray(find(schema, misfit.schemaPath.slice(1).replace(/\/additionalProperties$/, ''))));
  }
  // of a list whose places are counted: nothing is allowed behind the last one
  if (misfit.keyword === 'boolean') return sentence(at, `is ${quotedValue(here)}, one entry too many in its list: take it out.`);
  const fits = alternatives(all, misfit) ?? wanted(find(schema, misfit.schemaPath.slice(1)));
  return sentence(at, `is ${quotedValue(here)}: give ${fits}.`);
}

/** What is amiss with an entry that the schema has not. */
function stray(entry: unknown): string {
  const names = Object.keys(property(entry, 'properties') ?? {});
  const cure = names.length > 0 ? `take it out; known here are ${names.join(', ')}` : `names here are ${nameRule(entry)}`;
  return `is an entry that plans do not have: ${cure}.`;
}

/** Inside an alternative, the misfits of the branch that was meant: the one whose fixed values all fit. */
function choose(all: readonly Misfit[]): Misfit | undefined {
  const first = all.find((m) => m.keyword !== 'boolean') ?? all[0];
  const union = first && /^(.*?)\/anyOf\/\d+/.exec(first.schemaPath)?.[1];
  if (union === undefined) return first;
  const branches = new Map<string, Misfit[]>();
  for (const m of all) {
    const branch = m.keyword === 'boolean' ? undefined : /^\/anyOf\/(\d+)/.exec(m.schemaPath.slice(union.length))?.[1];
    if (!m.schemaPath.startsWith(union) || branch === undefined) continue;
    branches.set(branch, [...(branches.get(branch) ?? []), m]);
  }
  const meant = [...branches.values()].find((ms) => ms.every((m) => m.keyword !== 'const'));
  return meant?.[0] ?? [...branches.values()].flat().find((m) => m.keyword === 'const') ?? first;
}

/** "one of "a", "b"" or "a number or text", where the place has several alternatives. */
function alternatives(all: readonly Misfit[], misfit: Misfit): string | undefined {
  const same = all.filter((m) => m.instancePath === misfit.instancePath && m.keyword === misfit.keyword);
  if (same.length < 2) return undefined;
  if (misfit.keyword === 'const')
    return `one of ${same.map((m) => (m.keyword === 'const' ? JSON.stringify(m.params.allowedValue) : '')).join(', ')}`;
  if (misfit.keyword === 'type') return same.map((m) => (m.keyword === 'type' ? typeWords(m.params.type) : '')).join(' or ');
  return undefined;
}

const typeWords = (type: unknown): string =>
  ({
    string: 'text',
    number: 'a number',
    integer: 'a whole number',
    boolean: 'true or false',
    array: 'a list',
    object: 'an object in braces',
  })[String(type)] ?? 'something else';

/** What a piece of schema asks for, in words. */
function wanted(piece: unknown): string {
  const get = (name: string) => property(piece, name);
  if (typeof get('description') === 'string') return String(get('description'));
  if (get('const') !== undefined) return JSON.stringify(get('const'));
  const choices = get('anyOf');
  if (Array.isArray(choices)) return `one of ${choices.map((c) => wanted(c)).join(', ')}`;
  const words = [typeWords(get('type'))];
  for (const [key, say] of LIMITS) if (get(key) !== undefined) words.push(say(String(get(key))));
  return words.join(' ');
}

const LIMITS: ReadonlyArray<readonly [key: string, say: (limit: string) => string]> = [
  ['minimum', (n) => `from ${n}`],
  ['maximum', (n) => `to ${n}`],
  ['minLength', (n) => `of at least ${grouped(Number(n))} characters`],
  ['maxLength', (n) => `of at most ${grouped(Number(n))} characters`],
  ['minItems', (n) => `of at least ${grouped(Number(n))} entries`],
  ['maxItems', (n) => `of at most ${grouped(Number(n))} entries`],
];

const nameRule = (entry: unknown): string => {
  const [pattern = ''] = Object.keys(property(entry, 'patternProperties') ?? {});
  return `of the form ${pattern.replace(/^\^|\$$/g, '')}`;
};

/** " in R3": a path of numbers alone is hard to find in a long list. */
const called = (here: unknown): string => {
  const id = property(here, 'id');
  return typeof id === 'string' ? ` in ${id}` : '';
};

const property = (of: unknown, name: string): unknown =>
  typeof of === 'object' && of !== null && Object.hasOwn(of, name) ? (of as Record<string, unknown>)[name] : undefined;

/** Follows a JSON pointer. */
const find = (root: unknown, pointer: string): unknown =>
  pointer
    .split('/')
    .slice(1)
    .reduce((at: unknown, step) => property(at, step.replaceAll('~1', '/').replaceAll('~0', '~')), root);
