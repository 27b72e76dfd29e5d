/** Random documents straight from a JSON Schema, so that whatever the schema comes to allow is tried without anybody thinking of it. */
import fc from 'fast-check';

export interface Schema {
  readonly type?: string;
  readonly const?: unknown;
  readonly anyOf?: readonly Schema[];
  readonly items?: Schema | readonly Schema[];
  readonly prefixItems?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly patternProperties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly pattern?: string;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly minItems?: number;
  readonly maxItems?: number;
}

/** Lists and texts are no longer than this, so that a document stays readable when a test fails. */
const MOST_ITEMS = 5;
const MOST_LETTERS = 14;

export function fromSchema(s: Schema): fc.Arbitrary<unknown> {
  if ('const' in s) return fc.constant(s.const);
  if (s.anyOf) return fc.oneof(...s.anyOf.map(fromSchema));
  switch (s.type) {
    case 'boolean':
      return fc.boolean();
    case 'integer':
      return fc.integer({ min: s.minimum ?? -1e6, max: s.maximum ?? 1e6 });
    case 'number':
      return aNumber(s);
    case 'string':
      return aText(s);
    case 'array': {
      const fixed = s.prefixItems ?? (Array.isArray(s.items) ? (s.items as readonly Schema[]) : undefined);
      if (fixed) return fc.tuple(...fixed.map(fromSchema));
      return fc.array(fromSchema(s.items as Schema), {
        minLength: s.minItems ?? 0,
        maxLength: Math.min(s.maxItems ?? MOST_ITEMS, MOST_ITEMS),
      });
    }
    case 'object':
      return anObject(s);
  }
  throw new Error(`this piece of schema is not known here: ${JSON.stringify(s)}`);
}

/** Plain figures as people write them, and any others. */
const aNumber = ({ minimum = -1e300, maximum = 1e300 }: Schema) =>
  fc.oneof(
    fc.constantFrom(0, 330, 4700, 1e-7, 2.2e-6, 0.47, -0, 1e-15, 5e-324, 1.5e13).filter((n) => n >= minimum && n <= maximum),
    fc.double({ min: minimum, max: maximum, noNaN: true }),
  );

const TRICKY = [
  '',
  ' ',
  '#',
  ' # ',
  '"',
  '\\',
  'true',
  '4k7',
  '1e3',
  'rotated',
  'at',
  'with',
  'nothing',
  'a b',
  'Ω',
  '\n',
  '\u2028',
  '\t',
  ',',
  '@0,0',
  'note',
  'a12',
];

function aText({ pattern, minLength = 0, maxLength = MOST_LETTERS }: Schema): fc.Arbitrary<string> {
  if (pattern !== undefined) return fc.stringMatching(new RegExp(pattern)).filter((t) => t.length <= maxLength);
  const most = Math.min(maxLength, MOST_LETTERS);
  return fc.oneof(
    fc.string({ unit: 'grapheme-ascii', minLength, maxLength: most }),
    fc.string({ unit: 'binary', minLength, maxLength: most }),
    fc
      .array(fc.constantFrom(...TRICKY), { minLength: 1, maxLength: 3 })
      .map((t) => t.join(''))
      .filter((t) => t.length >= minLength && t.length <= maxLength),
  );
}

function anObject({ properties, patternProperties, required = [] }: Schema): fc.Arbitrary<unknown> {
  if (properties)
    return fc.record(Object.fromEntries(Object.entries(properties).map(([name, s]) => [name, fromSchema(s)])), {
      requiredKeys: [...required],
      noNullPrototype: true,
    });
  const [pattern = '', values = {}] = Object.entries(patternProperties ?? {})[0] ?? [];
  return fc.dictionary(fc.stringMatching(new RegExp(pattern)), fromSchema(values), { maxKeys: MOST_ITEMS, noNullPrototype: true });
}
