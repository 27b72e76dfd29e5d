/** What a change does, in a few words made from the change itself: "move U1", "remove R3 and 2 wires", "set R3 to 4.7 kΩ". */

import { grouped } from '../../shared/grouped.ts';
import type { PlanPart, PlanWire } from '../../shared/plan.ts';
import type { Change } from '../document/changes.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import { enumeration } from '../units/text-list.ts';

/** One thing and what is done to it. */
interface Deed {
  readonly verb: string;
  /** 'part', 'wire' … as counted when there are several */
  readonly sort: 'part' | 'wire' | 'board' | 'meter' | 'memory' | 'switch' | 'title' | 'wanted' | 'proof' | 'notes' | 'wiring' | 'outputs';
  readonly id: string;
  /** words after the id: 'to 4.7 kΩ' */
  readonly to?: string;
}

/** As the end of "Undo: …". */
export function sayChange(change: Change): string {
  const deeds = weighty(deedsOf(change));
  const groups = new Map<string, Deed[]>();
  for (const deed of deeds) groups.set(deed.verb, [...(groups.get(deed.verb) ?? []), deed]);
  const said = [...groups].map(([verb, group]) => `${verb} ${things(group)}`);
  if (said.length === 0) return 'change nothing';
  return said.length > 2 ? `${said.slice(0, 2).join(', ')} and more` : said.join(' and ');
}

/** Bytes and switches that come and go with their part are not spoken of, nor are things put where they were for another one's sake. */
function weighty(deeds: readonly Deed[]): readonly Deed[] {
  const parts = new Set(deeds.filter((d) => d.sort === 'part').map((d) => d.id));
  return deeds.filter((d) => (d.sort !== 'memory' && d.sort !== 'switch') || !parts.has(d.id));
}

const SORTS: readonly Deed['sort'][] = [
  'board',
  'part',
  'wire',
  'meter',
  'memory',
  'switch',
  'title',
  'wanted',
  'proof',
  'notes',
  'wiring',
  'outputs',
];
const SEVERAL: Readonly<Record<Deed['sort'], string>> = {
  part: 'parts',
  wire: 'wires',
  board: 'boards',
  meter: 'meters',
  memory: 'memories',
  switch: 'switches',
  title: 'titles',
  wanted: 'wanted tables',
  proof: 'proofs',
  notes: 'notes',
  wiring: 'wirings',
  outputs: 'outputs',
};

/** "U1 and 3 wires": each sort by name if it is one, by number if it is several. */
function things(deeds: readonly Deed[]): string {
  const [only] = deeds;
  if (only && deeds.length === 1) return `${nameOf(only)}${only.to ? ` ${only.to}` : ''}`;
  const sorts = SORTS.flatMap((sort) => {
    const all = deeds.filter((d) => d.sort === sort);
    const [first] = all;
    return first ? [all.length === 1 ? nameOf(first) : `${all.length} ${SEVERAL[sort]}`] : [];
  });
  return enumeration(sorts);
}

function nameOf({ sort, id }: Deed): string {
  if (sort === 'part') return id;
  if (sort === 'memory') return `the bytes of ${id}`;
  if (sort === 'switch') return `the switches of ${id}`;
  if (sort === 'title') return 'the bench';
  if (sort === 'wanted') return 'the wanted table';
  if (sort === 'proof') return 'the proof';
  if (sort === 'wiring') return 'the wiring';
  if (sort === 'outputs') return 'outputs';
  return sort === 'notes' ? 'the notes' : `${sort} ${id}`;
}

const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);

function deedsOf(c: Change): readonly Deed[] {
  switch (c.op) {
    case 'add-board':
      return [{ verb: 'add', sort: 'board', id: c.board.id }];
    case 'remove-board':
      return [{ verb: 'remove', sort: 'board', id: c.board.id }];
    case 'add-part':
      return [{ verb: 'add', sort: 'part', id: c.part.id }];
    case 'remove-part':
      return [{ verb: 'remove', sort: 'part', id: c.part.id }];
    case 'add-wire':
      return [{ verb: 'add', sort: 'wire', id: c.wire.id }];
    case 'remove-wire':
      return [{ verb: 'remove', sort: 'wire', id: c.wire.id }];
    case 'add-meter':
      return [{ verb: 'add', sort: 'meter', id: c.meter.id }];
    case 'remove-meter':
      return [{ verb: 'remove', sort: 'meter', id: c.meter.id }];
    case 'replace-part':
      return [partDeed(c.before, c.after)];
    case 'replace-wire':
      return [wireDeed(c.before, c.after)];
    case 'set-memory':
      return [{ verb: 'change', sort: 'memory', id: c.id }];
    // always beside what is spoken of
    case 'set-cells':
      return [];
    case 'set-switches':
      return [{ verb: 'set', sort: 'switch', id: c.id }];
    case 'replace-board':
      return [{ verb: same(c.before.spot, c.after.spot) ? 'change' : 'move', sort: 'board', id: c.after.id }];
    case 'replace-meter':
      return [{ verb: 'move', sort: 'meter', id: c.after.id }];
    case 'set-wanted':
      return [{ verb: c.after ? 'change' : 'remove', sort: 'wanted', id: '' }];
    case 'set-proof':
      return [{ verb: c.after ? 'sign' : 'remove', sort: 'proof', id: '' }];
    case 'set-wanted-rows': {
      const [only, ...others] = c.rows;
      const to = others.length === 0 ? `in row ${only?.row}` : `in ${grouped(c.rows.length)} rows`;
      return [{ verb: 'change', sort: 'wanted', id: '', to }];
    }
    case 'set-notes':
      return [{ verb: 'change', sort: 'notes', id: '' }];
    case 'set-choice':
      return [{ verb: 'set', sort: c.name, id: '', to: `to ${c.after ?? { wiring: 'ideal', outputs: 'typical' }[c.name]}` }];
    case 'set-title':
      return [{ verb: 'rename', sort: 'title', id: '', to: `to ${c.after}` }];
    case 'all':
      return once(c.changes.flatMap(deedsOf));
  }
}

/** What is taken out and put in again in one gesture has been moved. */
function once(deeds: readonly Deed[]): readonly Deed[] {
  const key = (d: Deed) => `${d.sort} ${d.id}`;
  const verbs = new Map<string, Set<string>>();
  for (const d of deeds) verbs.set(key(d), (verbs.get(key(d)) ?? new Set()).add(d.verb));
  const seen = new Set<string>();
  return deeds.flatMap((d) => {
    const all = verbs.get(key(d));
    const moved = all?.has('add') && all.has('remove');
    const again = `${key(d)} ${moved ? 'move' : d.verb}`;
    if (seen.has(again)) return [];
    seen.add(again);
    return [moved ? { ...d, verb: 'move' } : d];
  });
}

function partDeed(before: PlanPart, after: PlanPart): Deed {
  const deed = { sort: 'part', id: after.id } as const;
  const differs = (key: keyof PlanPart) => !same(before[key], after[key]);
  if (differs('kind')) return { ...deed, verb: 'replace', to: `by ${partKind(after.kind)?.title ?? after.kind}` };
  if (before.damaged && !after.damaged) return { ...deed, verb: 'replace' };
  if (differs('at') || differs('to') || differs('spot')) return { ...deed, verb: 'move' };
  if (differs('rotated')) return { ...deed, verb: 'rotate' };
  if (differs('params')) return { ...deed, verb: 'set', ...settingOf(after) };
  if (differs('label')) return after.label ? { ...deed, verb: 'label', to: after.label } : { ...deed, verb: 'unlabel' };
  return { ...deed, verb: 'change' };
}

function settingOf(part: PlanPart): Pick<Deed, 'to'> {
  const kind = partKind(part.kind);
  const params = kind && readParams(kind, part);
  const value = kind && params?.ok ? kind.value?.(params.value) : undefined;
  return value ? { to: `to ${value}` } : {};
}

function wireDeed(before: PlanWire, after: PlanWire): Deed {
  const deed = { sort: 'wire', id: after.id } as const;
  if (before.from !== after.from || before.to !== after.to) return { ...deed, verb: 'move' };
  return before.colour === after.colour ? { ...deed, verb: 'change' } : { ...deed, verb: 'colour', to: after.colour };
}
