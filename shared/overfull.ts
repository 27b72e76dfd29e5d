/** The first list or record of a document with more entries than its schema allows: looked for before the entries are, of which there may be a million. */

/** What of a JSON Schema counts entries. */
export interface CountedSchema {
  readonly maxItems?: number;
  readonly maxProperties?: number;
  readonly properties?: Readonly<Record<string, CountedSchema>>;
  readonly patternProperties?: Readonly<Record<string, CountedSchema>>;
  readonly items?: CountedSchema | readonly CountedSchema[];
}

interface Overfull {
  /** such as `memories/U1` */
  readonly at: string;
  readonly entries: number;
  readonly most: number;
}

/** undefined: every list and record is within its limit. Goes no deeper than the schema does. */
export function findOverfull(value: unknown, schema: CountedSchema, at = ''): Overfull | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const list = Array.isArray(value);
  const inner = list ? schema.items : (schema.properties ?? schema.patternProperties);
  const most = (list ? schema.maxItems : schema.maxProperties) ?? Number.POSITIVE_INFINITY;
  const names = Object.keys(value);
  if (names.length > most) return { at, entries: names.length, most };
  if (!inner || Array.isArray(inner)) return undefined;
  const pieceOf = (name: string): CountedSchema | undefined =>
    list ? (inner as CountedSchema) : schema.properties ? schema.properties[name] : Object.values(schema.patternProperties ?? {})[0];
  for (const name of names) {
    const piece = pieceOf(name);
    const found = piece && findOverfull((value as Record<string, unknown>)[name], piece, at === '' ? name : `${at}/${name}`);
    if (found) return found;
  }
  return undefined;
}
