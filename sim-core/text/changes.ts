/** What a change does, in a few words made from the change itself: "move U1", "remove R3 and 2 wires", "set R3 to 4.7 kΩ". */

import { grouped } from '../../shared/grouped.ts';
import type { PlanPart, PlanWire } from '../../shared/plan.ts';
import { sameValue } from '../../shared/same-value.ts';
import {
  type Change,
  FIELDS,
  type FieldChange,
  type FieldName,
  LISTS,
  type ListName,
  RECORDS,
  type RecordName,
} from '../document/changes.ts';
import { partKind } from '../parts/catalogue.ts';
import { readParams } from '../parts/part.ts';
import { enumeration } from '../units/text-list.ts';

/** One thing and what is done to it. */
interface Clause {
  readonly verb: string;
  readonly name: ListName | RecordName | FieldName;
  /** '' for a field */
  readonly id: string;
  /** words after the id: 'to 4.7 kΩ' */
  readonly to?: string;
}

/** As the end of "Undo: …". */
export function sayChange(change: Change): string {
  const clauses = worthSaying(clausesOf(change));
  const groups = new Map<string, Clause[]>();
  for (const clause of clauses) groups.set(clause.verb, [...(groups.get(clause.verb) ?? []), clause]);
  const said = [...groups].map(([verb, group]) => `${verb} ${objectsText(group)}`);
  if (said.length === 0) return 'change nothing';
  return said.length > 2 ? `${said.slice(0, 2).join(', ')} and more` : said.join(' and ');
}

/** Bytes and switches that come and go with their part are not spoken of, nor are the states of cells, which change beside what is. */
function worthSaying(clauses: readonly Clause[]): readonly Clause[] {
  const parts = new Set(clauses.filter((c) => c.name === 'parts').map((c) => c.id));
  return clauses.filter(({ name, id }) => name !== 'cells' && !((name === 'memories' || name === 'switches') && parts.has(id)));
}

/** What a thing is called before its id, in the order in which things are named. */
const NOUNS: Readonly<Record<Clause['name'], string>> = {
  boards: 'board ',
  parts: '',
  wires: 'wire ',
  meters: 'meter ',
  memories: 'the bytes of ',
  cells: 'the cells of ',
  switches: 'the switches of ',
  title: 'the bench',
  wanted: 'the wanted table',
  proof: 'the proof',
  meant: 'the bench as meant',
  notes: 'the notes',
  wiring: 'the wiring',
  outputs: 'outputs',
};
const nameOf = ({ name, id }: Clause): string => `${NOUNS[name]}${id}`;

/** "U1 and 3 wires": of each list by name if it is one, by number if it is several. */
function objectsText(clauses: readonly Clause[]): string {
  const [only] = clauses;
  if (only && clauses.length === 1) return `${nameOf(only)}${only.to ? ` ${only.to}` : ''}`;
  return enumeration(
    [...LISTS, ...RECORDS, ...FIELDS].flatMap((name) => {
      const all = clauses.filter((c) => c.name === name);
      const [first] = all;
      return first ? [all.length === 1 ? nameOf(first) : `${all.length} ${name}`] : [];
    }),
  );
}

function clausesOf(c: Change): readonly Clause[] {
  switch (c.op) {
    case 'insert':
      return [{ verb: 'add', name: c.list, id: c.item.id }];
    case 'remove':
      return [{ verb: 'remove', name: c.list, id: c.item.id }];
    case 'replace':
      return [{ name: c.list, id: c.after.id, ...replacement(c) }];
    case 'set':
      if (!('id' in c)) return [{ name: c.field, id: '', ...setting(c) }];
      return [{ verb: c.field === 'switches' ? 'set' : 'change', name: c.field, id: c.id }];
    case 'set-rows': {
      const to = c.rows.length === 1 ? `in row ${c.rows[0]?.row}` : `in ${grouped(c.rows.length)} rows`;
      return [{ verb: 'change', name: 'wanted', id: '', to }];
    }
    case 'all':
      return mergeMoves(c.changes.flatMap(clausesOf));
  }
}

type Done = Pick<Clause, 'verb' | 'to'>;

function replacement(c: Extract<Change, { op: 'replace' }>): Done {
  if (c.list === 'parts') return partDone(c.before, c.after);
  if (c.list === 'wires') return wireDone(c.before, c.after);
  return { verb: c.list === 'boards' && sameValue(c.before.spot, c.after.spot) ? 'change' : 'move' };
}

function setting(c: FieldChange): Done {
  if (c.field === 'title') return { verb: 'rename', to: `to ${c.after}` };
  if (c.field === 'wiring') return { verb: 'set', to: `to ${c.after ?? 'ideal'}` };
  if (c.field === 'outputs') return { verb: 'set', to: `to ${c.after ?? 'typical'}` };
  if (c.after === undefined) return { verb: 'remove' };
  return { verb: c.field === 'proof' ? 'sign' : c.field === 'meant' ? 'keep' : 'change' };
}

/** What is taken out and put in again in one gesture has been moved. */
function mergeMoves(clauses: readonly Clause[]): readonly Clause[] {
  const key = (c: Clause) => `${c.name} ${c.id}`;
  const verbs = new Map<string, Set<string>>();
  for (const c of clauses) verbs.set(key(c), (verbs.get(key(c)) ?? new Set()).add(c.verb));
  const seen = new Set<string>();
  return clauses.flatMap((c) => {
    const all = verbs.get(key(c));
    const moved = all?.has('add') && all.has('remove');
    const again = `${key(c)} ${moved ? 'move' : c.verb}`;
    if (seen.has(again)) return [];
    seen.add(again);
    return [moved ? { ...c, verb: 'move' } : c];
  });
}

function partDone(before: PlanPart, after: PlanPart): Done {
  const differs = (key: keyof PlanPart) => !sameValue(before[key], after[key]);
  if (differs('kind')) return { verb: 'replace', to: `by ${partKind(after.kind)?.title ?? after.kind}` };
  if (before.damaged && !after.damaged) return { verb: 'replace' };
  if (differs('at') || differs('to') || differs('spot')) return { verb: 'move' };
  if (differs('rotated')) return { verb: 'rotate' };
  if (differs('params')) return { verb: 'set', ...valueText(after) };
  if (differs('label')) return after.label ? { verb: 'label', to: after.label } : { verb: 'unlabel' };
  return { verb: 'change' };
}

function valueText(part: PlanPart): Pick<Done, 'to'> {
  const kind = partKind(part.kind);
  const params = kind && readParams(kind, part);
  const value = kind && params?.ok ? kind.value?.(params.value) : undefined;
  return value ? { to: `to ${value}` } : {};
}

function wireDone(before: PlanWire, after: PlanWire): Done {
  if (before.from !== after.from || before.to !== after.to) return { verb: 'move' };
  return before.colour === after.colour ? { verb: 'change' } : { verb: 'colour', to: after.colour };
}
