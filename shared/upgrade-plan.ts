/** A plan of an earlier version as the document that it is today: one step a version, nothing lost. */

type Json = Readonly<Record<string, unknown>>;

/** Kinds of parts by their names of version 1. */
const KINDS: Readonly<Record<string, string>> = {
  'lamp-bar': 'led-bar-graph',
  'crystal-clock': 'crystal-oscillator',
  'pulse-source': 'clock-generator',
  'fuse-prom-2kx8': 'prom-2kx8',
  'digit-driver-low': 'seven-segment-driver-low',
  'digit-driver-high': 'seven-segment-driver-high',
  'digit-driver-latch': 'seven-segment-driver-latch',
  'digit-common-anode': 'seven-segment-common-anode',
  'digit-common-cathode': 'seven-segment-common-cathode',
};

const isRecord = (value: unknown): value is Json => typeof value === 'object' && value !== null && !Array.isArray(value);
const eachOf = (list: unknown, change: (entry: Json) => Json): unknown =>
  Array.isArray(list) ? list.map((entry) => (isRecord(entry) ? change(entry) : entry)) : list;
/** The record with one name exchanged for another, at the same place. */
const renamed = (record: Json, from: string, to: string): Json =>
  Object.fromEntries(Object.entries(record).map(([k, v]) => [k === from ? to : k, v]));

const newKind = (part: Json): Json => ({ ...part, ...(typeof part.kind === 'string' ? { kind: KINDS[part.kind] ?? part.kind } : {}) });

/** Version 1 had leads for wires, other names for some kinds of parts, and `lamp` for the LED of an output. */
function fromVersion1(plan: Json): Json {
  const { wanted } = plan;
  return {
    ...renamed(plan, 'leads', 'wires'),
    version: 2,
    parts: eachOf(plan.parts, newKind),
    ...(isRecord(wanted) ? { wanted: { ...wanted, outputs: eachOf(wanted.outputs, (o) => renamed(o, 'lamp', 'led')) } } : {}),
  };
}

/** A document whose format and version are known to be ours; what does not fit its schema is left as it is, for the reader to say. */
export function upgradePlan(document: Json): Json {
  return document.version === 1 ? fromVersion1(document) : document;
}
