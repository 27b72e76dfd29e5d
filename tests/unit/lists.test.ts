/** The lists: what each lead is for, and a typed plan judged line by line before the bench hears of it. */
import { describe, expect, test } from 'vitest';
import { checkTyped, lineOfThing, planNow, refOfLine } from '../../client/lists/typed-plan.ts';
import { whatFor } from '../../client/lists/what-for.ts';
import { stand } from '../../client/standing.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import type { Readings } from '../../sim-core/index.ts';
import { writeBenchText } from '../../sim-core/index.ts';

const greenhouse = demoPlan('greenhouse')!;
const text = writeBenchText(greenhouse);

test('a lead says what it is for, the pin that asks first', () => {
  const says = whatFor(stand(greenhouse));
  const lead = (from: string) => says.get(greenhouse.leads.find((l) => l.from === from || l.to === from)!.id);
  expect(lead('PS1.+')).toBe('PS1 + to plus rail');
  expect(lead('b6')).toBe('U1 A3 ← S1 pole 4');
  expect(lead('i13')).toBe('U1 VCC ← plus rail');
  expect(lead('j3')).toBe('plus rail to S1 pole 1');
  expect([...says.values()].filter((s) => /^U1 D\d → L\d$|^L\d ← U1 D\d$/.test(s))).toHaveLength(8);
});

describe('a typed plan', () => {
  test('that stands has no problem', () => {
    expect(checkTyped(text)).toEqual({ plan: greenhouse, problems: [] });
  });

  test('is refused on the line where the bench cannot stand so', () => {
    const line = lineOfThing(text, 'R12') + 1;
    const bad = text.replace(/^(R12 .*)a4 (.*)$/m, '$1a3 $2');
    expect(checkTyped(bad).problems).toEqual([
      { line, says: expect.stringMatching(/^a3 is taken by R11 pin 1, so R12 pin 1 cannot go there/) },
    ]);
  });

  test('knows of each line which thing it is about', () => {
    const lines = text.split('\n');
    expect(refOfLine(lines[lineOfThing(text, 'W6')]!, greenhouse)).toEqual({ kind: 'lead', id: 'W6' });
    expect(refOfLine('U1 memory 0=FF', greenhouse)).toEqual({ kind: 'part', id: 'U1' });
    expect(refOfLine('note U1', greenhouse)).toBeUndefined();
  });

  test('is written with the switches as they stand, and no button that is held', () => {
    const hands = { PS1: [true], S1: [true, false, false, false, false], SB1: [true] };
    const now = planNow(greenhouse, {}, { hands } as unknown as Readings, (part) => part === 'SB1');
    expect(now.hands).toEqual({ PS1: [true], S1: [true, false, false, false, false] });
    expect(now.memories).toEqual({});
  });
});
