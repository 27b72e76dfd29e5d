/** Actions by name: every one is listed whole, its example can be typed, keys wire somewhere, and what is typed in part finds what was meant. */
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../client/commands/catalogue.ts';
import type { Desk } from '../../client/commands/command.ts';
import { choicesFor, likeness, missing, parseCommandLine, runLine } from '../../client/commands/line.ts';
import { NO_HISTORY } from '../../client/core.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { readSources } from '../support/sources.ts';

const acts: unknown[] = [];
const turned: unknown[] = [];
const desk = {
  session: {
    standing: makeBenchModel(demoPlan('greenhouse')!),
    readings: { hands: {} },
    act: (a: unknown) => acts.push(a),
    history: NO_HISTORY,
  },
  chooser: { demos: [{ id: 'greenhouse', title: 'Greenhouse watch' }] },
  turn: (place: unknown) => turned.push(place),
} as unknown as Desk;

const done = async (line: string) => {
  acts.length = 0;
  const answer = await runLine(line, COMMANDS, desk);
  return answer.ok ? acts : answer.failure.says;
};

describe('the catalogue', () => {
  test('has every list of actions that a file of its folder exports', () => {
    const files = readSources('client').filter((s) => /^client\/commands\/[a-z-]+-commands\.ts$/.test(s.path));
    const catalogue = readSources('client').find((s) => s.path === 'client/commands/catalogue.ts')!;
    expect(files.length).toBeGreaterThan(2);
    expect(files.map((s) => s.path).filter((p) => !catalogue.imports.some((i) => i.to === p))).toEqual([]);
  });

  test('names no action and no key twice', () => {
    const names = COMMANDS.map((c) => c.name);
    const keys = COMMANDS.flatMap((c) => Object.keys(c.keys ?? {}));
    expect([names.length, keys.length]).toEqual([new Set(names).size, new Set(keys).size]);
  });

  test.each(COMMANDS.map((c) => [c.name, c] as const))('%s: its example and the lines of its keys are complete lines of it', (_, c) => {
    for (const line of [...(c.example ? [c.example] : []), ...Object.values(c.keys ?? {})]) {
      const read = parseCommandLine(line, COMMANDS);
      expect(read?.command).toBe(c);
      expect(missing(read!)).toBeUndefined();
    }
  });
});

describe('a line', () => {
  test('throws a pole by number, by the name of its line, and all poles at once', async () => {
    expect(await done('switch S1 3 on')).toEqual([{ do: 'set', part: 'S1', pole: 2, closed: true }]);
    expect(await done('switch sensors windy on')).toEqual([{ do: 'set', part: 'S1', pole: 3, closed: true }]);
    expect(await done('Switch s1 10001')).toEqual([
      { do: 'set', part: 'S1', pole: 0, closed: true },
      { do: 'set', part: 'S1', pole: 4, closed: true },
    ]);
    expect(await done('switch S1 windy')).toEqual([{ do: 'set', part: 'S1', pole: 3, closed: true }]);
    expect(await done('switch PS1')).toEqual([{ do: 'set', part: 'PS1', pole: 0, closed: true }]);
  });

  test('turns the notebook and asks why', async () => {
    await done('page findings');
    await done('why vent');
    expect(turned).toEqual([{ page: 'findings' }, { page: 'why', about: 'L0' }]);
  });

  test.each([
    ['swich S1 3 on', 'No action is called "swich"; the nearest is "switch". Type "keys" for the list.'],
    ['switch', '"switch" still needs SWITCH, for example: switch S1 3 on.'],
    ['switch S9 3 on', 'There is no switch S9 on this bench; there are PS1, S1.'],
    ['switch S1 9 on', 'S1 (sensors) has no pole 9: it has 1 to 5.'],
    ['switch S1 on', 'S1 (sensors) has 5 poles: write its number, then on or off, for example: switch S1 1 on.'],
    ['switch S1 101', 'S1 (sensors) has 5 poles and "101" has 3 figures. Write one 0 or 1 a pole.'],
    ['switch S1 3 up', '"up" is neither on nor off.'],
    ['press S1', 'There is no button S1 on this bench.'],
    ['re-end W99 to a1', 'There is no wire W99 on this bench.'],
    ['re-end W1 middle a1', '"middle" is no end of a wire: W1 goes from PS1.+ to +j8. Write from or to.'],
    ['page windows', 'The notebook has no page "windows"; it has '],
    ['zoom Q7', 'There is nothing called Q7 on this bench. Write a part such as PS1, a wire, or a tie point such as a12.'],
    ['why R0', 'R0 is no LED.'],
    ['open cellar', 'There is no demonstration "cellar"; there are greenhouse.'],
    ['undo', 'Nothing has been changed, so there is nothing to take back.'],
    ['undo it', '"it" is too much after "undo".'],
    ['renew L0', 'L0 is not damaged.'],
  ])('%s is refused with the cure', async (line, says) => {
    expect(await done(line)).toContain(says);
  });
});

describe('what is typed in part', () => {
  const first = (text: string) => choicesFor(text, COMMANDS, desk)[0]?.line;

  test.each([
    ['', COMMANDS[0]!.name],
    ['fin', 'page findings'],
    ['pgta', 'page table'],
    ['zm', 'zoom'],
    ['grnhs', 'open greenhouse'],
    ['switch win', undefined],
    ['switch S1 win', 'switch S1 4'],
    ['zoom grow', 'zoom L5'],
    ['why mist', 'why L2'],
  ])('"%s" finds what was meant', (text, line) => {
    expect(first(text)).toBe(line);
  });

  test('a letter that is not there finds nothing; whole words come before scattered letters', () => {
    expect(likeness('zq', 'zoom')).toBe(0);
    expect(likeness('wire', 'wire')).toBeGreaterThan(likeness('wire', 'let go, read'));
  });
});
