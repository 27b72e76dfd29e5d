/** The lists: what each wire is for, and a typed plan judged line by line before the bench hears of it. */
import { describe, expect, test } from 'vitest';
import { alike, checkTyped, lineOfThing, refOfLine } from '../../client/panel/lists/typed-plan.ts';
import { whatFor } from '../../client/panel/lists/what-for.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { writeBenchText } from '../../sim-core/index.ts';

const greenhouse = demoPlan('greenhouse')!;
const text = writeBenchText(greenhouse);

test('a wire says what it is for, the pin that asks first', () => {
  const says = whatFor(makeBenchModel(greenhouse));
  const wire = (from: string) => says.get(greenhouse.wires.find((l) => l.from === from || l.to === from)!.id);
  expect(wire('PS1.+')).toBe('PS1 + to plus rail');
  expect(wire('b6')).toBe('U1 A3 ← S1 pole 4');
  expect(wire('i13')).toBe('U1 VCC ← plus rail');
  expect(wire('j3')).toBe('plus rail to S1 pole 1');
  expect([...says.values()].filter((s) => /^U1 D\d → U2 [12]A\d$/.test(s))).toHaveLength(8);
  expect([...says.values()].filter((s) => /^LED\d ← U2 [12]Y\d$/.test(s))).toHaveLength(8);
});

describe('a typed plan', () => {
  test('that stands has no problem', () => {
    expect(checkTyped(text)).toEqual({ plan: greenhouse, problems: [] });
  });

  test('is refused on the line where the bench cannot stand so', () => {
    const line = lineOfThing(text, 'R12') + 1;
    const bad = text.replace(/^(resistor R12 .*)a4 (.*)$/m, '$1a3 $2');
    expect(checkTyped(bad).problems).toEqual([
      { line, says: expect.stringMatching(/^a3 is taken by R11 pin 1, so R12 pin 1 cannot go there/) },
    ]);
  });

  test('knows of each line which thing it is about', () => {
    const lines = text.split('\n');
    expect(refOfLine(lines[lineOfThing(text, 'W6')]!, greenhouse)).toEqual({ kind: 'wire', id: 'W6' });
    expect(refOfLine('memory U1 0 FF', greenhouse)).toEqual({ kind: 'part', id: 'U1' });
    expect(refOfLine('note U1', greenhouse)).toBeUndefined();
  });

  test('stays as it was typed while the bench holds the same bytes and switches, however it writes them', () => {
    const held = { ...greenhouse, memories: { U1: { '000': '12FF', '003': '34' } }, switches: { S1: [true, false] } };
    expect(alike(held, { ...held, memories: { U1: { '000': '12FFFF34FF' } }, switches: { PS1: [false], S1: [true] } })).toBe(true);
    expect(alike(held, { ...held, memories: { U1: { '000': '12FFFF35' } } })).toBe(false);
    expect(alike(held, { ...held, switches: { S1: [true, true] } })).toBe(false);
    expect(alike(held, { ...held, title: 'Another' })).toBe(false);
  });
});
