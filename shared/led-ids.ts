/** LEDs of a version-1 plan by their ids of version 2: D1 or L1 becomes LED1 wherever the plan names it, since D0 to D7 are data pins. */

export type Json = Readonly<Record<string, unknown>>;

export const isRecord = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value);

const listed = (list: unknown): readonly Json[] => (Array.isArray(list) ? list.filter(isRecord) : []);

/** Longest id that a plan takes. */
const LONGEST = 16;

/** Old id → new id, of every LED that was called by D or L and a number. The number stays; where that id is taken, the next free one. */
export function newLedIds({ boards, parts, wires }: Json): ReadonlyMap<string, string> {
  const taken = new Set([boards, parts, wires].flatMap((list) => listed(list).map((thing) => thing.id)));
  const ids = new Map<string, string>();
  const late: string[] = [];
  for (const { id, kind } of listed(parts)) {
    const number = kind === 'led' && typeof id === 'string' ? /^[DL](\d+)$/.exec(id)?.[1] : undefined;
    if (number === undefined || typeof id !== 'string' || ids.has(id)) continue;
    const name = `LED${number}`;
    if (taken.has(name) || name.length > LONGEST) late.push(id);
    else ids.set(id, name);
    taken.add(name);
  }
  let n = 1;
  for (const id of late) {
    while (taken.has(`LED${n}`)) n++;
    taken.add(`LED${n}`);
    ids.set(id, `LED${n}`);
  }
  return ids;
}

/** The plan with these ids exchanged: in parts, legs, the wanted table, meters, the proof, and in notes where an LED is meant for certain. */
export function withLedIds(plan: Json, ids: ReadonlyMap<string, string>): Json {
  if (ids.size === 0) return plan;
  const id = (value: unknown): unknown => (typeof value === 'string' ? (ids.get(value) ?? value) : value);
  /** 'D3.1': the id stands before the first dot */
  const leg = (value: unknown): unknown =>
    typeof value === 'string' ? value.replace(/^[^.]+(?=\.|$)/, (name) => ids.get(name) ?? name) : value;
  const fields = (thing: Json, names: readonly string[], change: (value: unknown) => unknown): Json =>
    Object.fromEntries(Object.entries(thing).map(([k, v]) => [k, names.includes(k) ? change(v) : v]));
  const each = (list: unknown, change: (thing: Json) => Json): unknown =>
    Array.isArray(list) ? list.map((thing) => (isRecord(thing) ? change(thing) : thing)) : list;
  const keys = (record: unknown): unknown =>
    isRecord(record) ? Object.fromEntries(Object.entries(record).map(([k, v]) => [id(k), v])) : record;
  const at = (thing: Json) => fields(thing, ['at', 'to', 'from', 'against', 'leg'], leg);
  const line = (thing: Json) => fields(thing, ['pin', 'led'], leg);
  const note = (text: unknown) => (typeof text === 'string' ? inNote(text, ids) : text);
  const table = (wanted: Json) => fields(wanted, ['inputs', 'outputs'], (list) => each(list, line));
  return Object.fromEntries(
    Object.entries(plan).map(([name, value]): [string, unknown] => {
      if (name === 'parts') return [name, each(value, (part) => at({ ...part, id: id(part.id) }))];
      if (name === 'wires' || name === 'meters') return [name, each(value, at)];
      if (name === 'memories' || name === 'cells' || name === 'switches') return [name, keys(value)];
      if (name === 'wanted' && isRecord(value)) return [name, table(value)];
      if (name === 'proof' && isRecord(value)) return [name, fields(value, ['switches'], keys)];
      if (name === 'notes' && Array.isArray(value)) return [name, value.map(note)];
      return [name, value];
    }),
  );
}

/** L3 is an LED wherever it is named; D3 may be a data pin, unless "LED" or "lamp" stands before it, which the new id then says itself. */
const inNote = (text: string, ids: ReadonlyMap<string, string>): string =>
  text
    .replace(/\b(?:(?:LED|lamp) )?(L\d+)\b/g, (all, name: string) => ids.get(name) ?? all)
    .replace(/\b((?:LED|lamp) (?:[^().]{1,40} \()?)(D\d+)\b/g, (all, before: string, name: string) => {
      const led = ids.get(name);
      if (led === undefined) return all;
      return /^\w+ $/.test(before) ? led : `${before}${led}`;
    });
