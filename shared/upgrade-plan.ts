/** A plan of an earlier version as the document that it is today: one step a version, nothing lost. */
import { isRecord, type Json, newLedIds, withLedIds } from './led-ids.ts';

/** The version of the plans that this program writes, and the newest that it reads. */
export const PLAN_VERSION = 2;

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

/** Fields by their names of version 1. */
const OF_PLAN = { leads: 'wires', hands: 'switches' };
const OF_WANTED = { free: 'dontCare' };
const OF_OUTPUT = { lamp: 'led' };
const OF_PROOF = { of: 'fingerprint', stood: 'switches' };

const eachOf = (list: unknown, change: (entry: Json) => Json): unknown =>
  Array.isArray(list) ? list.map((entry) => (isRecord(entry) ? change(entry) : entry)) : list;

/** The record with some names exchanged, each at its place. */
const renamed = (record: Json, names: Readonly<Record<string, string>>): Json =>
  Object.fromEntries(Object.entries(record).map(([k, v]) => [names[k] ?? k, v]));

/** One field by what it holds, where it holds a record at all. */
const changed = (plan: Json, name: string, change: (value: Json) => Json): Json => {
  const value = plan[name];
  return isRecord(value) ? { ...plan, [name]: change(value) } : plan;
};

function newPart(part: Json): Json {
  const entries = Object.entries(part).flatMap(([k, v]): [string, unknown][] => {
    if (k === 'kind' && typeof v === 'string') return [[k, KINDS[v] ?? v]];
    if (k === 'turn' && (v === 0 || v === 180)) return v === 180 ? [['rotated', true]] : [];
    return [[k, v]];
  });
  return Object.fromEntries(entries);
}

/** Version 1 had leads for wires, hands for the positions of switches, degrees for a rotated part, other names for some kinds of parts, and D1 for LED1. */
function fromVersion1(plan: Json): Json {
  const named = renamed({ ...plan, version: 2, parts: eachOf(plan.parts, newPart) }, OF_PLAN);
  const table = changed(named, 'wanted', (wanted) =>
    renamed({ ...wanted, outputs: eachOf(wanted.outputs, (output) => renamed(output, OF_OUTPUT)) }, OF_WANTED),
  );
  const upgraded = changed(table, 'proof', (proof) => renamed(proof, OF_PROOF));
  return withLedIds(upgraded, newLedIds(upgraded));
}

/** A document whose format and version are known to be ours; what does not fit its schema is left as it is, for the reader to say. */
export function upgradePlan(document: Json): Json {
  return document.version === 1 ? fromVersion1(document) : document;
}
