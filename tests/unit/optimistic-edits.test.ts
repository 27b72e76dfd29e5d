/** Edits shown before the worker has made them: in what order they are sent, and what is left when one is refused or comes out otherwise. */
import { describe, expect, test } from 'vitest';
import { OptimisticEdits } from '../../client/state/optimistic-edits.ts';
import type { Plan } from '../../shared/plan.ts';
import { apply, type Change, NO_HISTORY, readBenchText, rebase } from '../../sim-core/index.ts';

const read = readBenchText('board-63 B1\nresistor R1 330 from a10 to a14');
if (!read.ok) throw new Error(read.failure.says);
const plan = read.value;
const title = (after: string): Change => ({ op: 'set', field: 'title', before: '', after });
const wire = (id: string): Change => ({ op: 'insert', list: 'wires', item: { id, from: 'b10', to: 'b20', colour: 'green' }, index: 0 });

/** Edits with a worker that answers when it is told to. */
function begin(fits: (plan: Plan) => boolean = () => true) {
  const sent: Change[] = [];
  const refusal = { ok: false, failure: { code: 'edit/hole-taken', at: '', says: 'That does not fit.' } } as const;
  const edits = new OptimisticEdits(
    (p) => (fits(p) ? { ok: true, value: undefined } : refusal),
    (change) => sent.push(change),
  );
  let worker = plan;
  edits.begin({ plan, history: NO_HISTORY });
  return {
    edits,
    sent,
    answer() {
      const made = rebase(worker, sent.at(-1)!);
      worker = apply(worker, made);
      edits.made(made, worker);
    },
    /** the worker's bench changes by itself */
    become(change: (plan: Plan) => Plan) {
      worker = change(worker);
      edits.became(change);
    },
  };
}

describe('an edit', () => {
  test('is shown at once, and sent only when the one before it has been answered', () => {
    const { edits, sent, answer } = begin();
    edits.ask(title('One'));
    edits.ask(wire('W1'));
    expect(edits.shown?.plan.title).toBe('One');
    expect(edits.shown?.plan.wires.map((l) => l.id)).toEqual(['W1']);
    expect(edits.shown?.history.at).toBe(2);
    expect(sent.length).toBe(1);
    answer();
    expect(sent.length).toBe(2);
    answer();
    expect(edits.waiting).toBe(false);
    expect(edits.shown?.history.at).toBe(2);
  });

  test('that does not fit is refused on the page, and the worker is never asked', () => {
    const { edits, sent } = begin((p) => p.wires.length === 0);
    expect(edits.ask(wire('W1')).ok).toBe(false);
    expect(edits.shown?.plan).toBe(plan);
    expect(sent).toEqual([]);
  });

  test('that the worker refuses goes away with its line in the history, and those after it stay', () => {
    const { edits, answer } = begin();
    edits.ask(wire('W1'));
    edits.ask(title('Kept'));
    edits.refused();
    expect(edits.shown?.plan.wires).toEqual([]);
    expect(edits.shown?.plan.title).toBe('Kept');
    answer();
    expect(edits.shown?.history.changes).toMatchObject([{ op: 'set', field: 'title' }]);
  });

  test('and its undo, both before any answer, leave the bench as it was', () => {
    const { edits, answer } = begin();
    edits.ask(wire('W1'));
    edits.ask('undo');
    expect(edits.shown?.plan.wires).toEqual([]);
    answer();
    answer();
    expect(edits.shown?.plan).toEqual(plan);
    expect(edits.shown?.history.at).toBe(0);
    expect(edits.shown?.history.changes.length).toBe(1);
  });

  test('stays on top of what the worker tells meanwhile, such as a switch that a hand has set', () => {
    const { edits, answer, become } = begin();
    edits.ask(title('One'));
    become((p) => ({ ...p, switches: { S1: [true] } }));
    expect(edits.shown?.plan.title).toBe('One');
    expect(edits.shown?.plan.switches).toEqual({ S1: [true] });
    answer();
    expect(edits.shown?.plan.switches).toEqual({ S1: [true] });
  });
});

test('another bench that is asked for drops all edits but the one that is at the worker', () => {
  const { edits, sent, answer } = begin();
  edits.ask(title('One'));
  edits.ask(wire('W1'));
  edits.ask(wire('W2'));
  edits.drop();
  expect(edits.shown?.plan.title).toBe('One');
  expect(edits.shown?.plan.wires).toEqual([]);
  expect(edits.waiting).toBe(true);
  answer();
  expect(edits.waiting).toBe(false);
  expect(sent).toHaveLength(1);
  expect(edits.shown?.plan.wires).toEqual([]);
  expect(edits.shown?.history.changes).toHaveLength(1);
});

test('before the first bench nothing is asked for, and a bench that begins forgets what waits', () => {
  const sent: Change[] = [];
  const edits = new OptimisticEdits(
    () => ({ ok: true, value: undefined }),
    (change) => sent.push(change),
  );
  expect(edits.ask(title('One')).ok).toBe(true);
  expect([edits.shown, edits.waiting, sent.length]).toEqual([undefined, false, 0]);
  edits.begin({ plan, history: NO_HISTORY });
  edits.ask(title('One'));
  expect([edits.waiting, sent.length]).toEqual([true, 1]);
  edits.begin({ plan, history: NO_HISTORY });
  expect(edits.waiting).toBe(false);
  expect(edits.shown?.plan.title).toBe(plan.title);
});

test('what has not changed is the same object after the answer, so that it is not drawn again', () => {
  const { edits, sent } = begin();
  const before = edits.shown?.plan.parts[0];
  edits.ask(title('One'));
  const copy = structuredClone(apply(plan, sent[0]!));
  edits.made(sent[0]!, copy);
  expect(edits.shown?.plan.parts[0]).toBe(before);
  expect(edits.shown?.plan.parts).toBe(plan.parts);
});
