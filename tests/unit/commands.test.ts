/** Commands: each is found by its name and its synonyms, its example can be typed, and a name that is none runs nothing. */
import { describe, expect, test } from 'vitest';
import { COMMANDS } from '../../client/commands/catalogue.ts';
import type { CommandContext } from '../../client/commands/command.ts';
import { likeness } from '../../client/commands/likeness.ts';
import { choicesFor, missing, namesOf, nearestActions, parseCommandLine, runLine } from '../../client/commands/line.ts';
import { fillSlots } from '../../client/commands/words.ts';
import { makeBenchModel } from '../../client/state/bench-model.ts';
import { demoPlan } from '../../shared/demo-plans.ts';
import { misspelling } from '../../shared/misspelling.ts';
import { difference, NO_HISTORY } from '../../sim-core/index.ts';
import { readSources } from '../support/sources.ts';

const acts: unknown[] = [];
const shown: unknown[] = [];
const built: unknown[] = [];
const bench = makeBenchModel(demoPlan('greenhouse')!);
const idOfLed = (name: string) => bench.leds.find((l) => l.name === name)!.led;
const [VENT_LED, MISTER_LED] = [idOfLed('vent'), idOfLed('mister')];
const desk = {
  session: {
    model: bench,
    readings: { switches: {} },
    act: (a: unknown) => acts.push(a),
    history: NO_HISTORY,
  },
  chooser: { demos: [{ id: 'greenhouse', title: 'Greenhouse watch' }] },
  showPage: (place: unknown) => shown.push(place),
  builder: {
    chosen: ['R1'],
    wire: (...args: unknown[]) =>
      built.push(['wire', ...args]) && {
        ok: true,
        value: { op: 'insert', list: 'wires', item: { id: 'W99', from: args[0], to: args[1] } },
      },
    params: (...args: unknown[]) => built.push(['params', ...args]) && { ok: true },
    recolour: (...args: unknown[]) => built.push(['recolour', ...args]) && { ok: true },
    label: (...args: unknown[]) => built.push(['label', ...args]) && { ok: true },
    poleName: (...args: unknown[]) => built.push(['poleName', ...args]) && { ok: true },
    move: (...args: unknown[]) => built.push(['move', ...args]) && { ok: true },
    place: (...args: unknown[]) =>
      built.push(['place', ...args]) && { ok: true, value: { op: 'insert', list: 'parts', item: { id: 'R99' } } },
    store: (...args: unknown[]) => built.push(['store', ...args]) && { ok: true },
  },
} as unknown as CommandContext;

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

  test('has no name, synonym or key twice', () => {
    const names = COMMANDS.flatMap(namesOf);
    const keys = COMMANDS.flatMap((c) => Object.keys(c.keys ?? {}));
    expect(names.filter((n, i) => names.indexOf(n) !== i)).toEqual([]);
    expect(keys.length).toBe(new Set(keys).size);
  });

  test.each(COMMANDS.map((c) => [c.name, c] as const))('%s: its example and the lines of its keys are complete lines of it', (_, c) => {
    for (const line of [...(c.example ? [c.example] : []), ...Object.values(c.keys ?? {})]) {
      const read = parseCommandLine(line, COMMANDS);
      expect(read?.command).toBe(c);
      expect(missing(read!)).toBeUndefined();
      expect(fillSlots(c.takes, read!.words).over).toBeUndefined();
    }
  });

  test.each(COMMANDS.flatMap((c) => c.synonyms.map((name) => [name, c.name] as const)))('"%s" is %s', (synonym, name) => {
    expect(parseCommandLine(synonym, COMMANDS)?.command.name).toBe(name);
    expect(parseCommandLine(`${synonym.toUpperCase()} `, COMMANDS)?.command.name).toBe(name);
    expect(choicesFor(synonym, COMMANDS, desk).map((c) => c.line.startsWith(name))).toContain(true);
  });
});

describe('a line', () => {
  test('sets a pole by number, by the name of its line, and all poles at once', async () => {
    expect(await done('switch S1 3 on')).toEqual([{ do: 'set', part: 'S1', pole: 2, closed: true }]);
    expect(await done('switch sensors windy on')).toEqual([{ do: 'set', part: 'S1', pole: 3, closed: true }]);
    expect(await done('Switch s1 10001')).toEqual([
      { do: 'set', part: 'S1', pole: 0, closed: true },
      { do: 'set', part: 'S1', pole: 4, closed: true },
    ]);
    expect(await done('switch S1 windy')).toEqual([{ do: 'set', part: 'S1', pole: 3, closed: true }]);
    expect(await done('switch PS1')).toEqual([{ do: 'set', part: 'PS1', pole: 0, closed: true }]);
  });

  test('shows a page of the panel and asks why', async () => {
    await done('findings');
    await done('prove all rows');
    await done('why vent');
    await done('why w1');
    expect(shown).toEqual([
      { page: 'findings' },
      { page: 'build', about: 'proof' },
      { page: 'why', about: VENT_LED },
      { page: 'why', about: 'W1' },
    ]);
  });

  test.each([
    ['set R1 to 4k7', ['params', 'R1', { ohms: 4700 }]],
    ['set w1 to Red', ['recolour', ['W1'], 'red']],
    ['call R1 vent fan', ['label', 'R1', 'vent fan']],
    ['call R1', ['label', 'R1', '']],
    ['call s1.1 warm', ['poleName', 'S1', 0, 'warm']],
    ['call S1.damp very damp', ['poleName', 'S1', 1, 'very damp']],
    ['call S1.5', ['poleName', 'S1', 4, '']],
    ['wire a3 to b17 red', ['wire', 'a3', 'b17', 'red']],
    ['wire a3 b17', ['wire', 'a3', 'b17', undefined]],
    ['wire U1 pin 9 to R1', ['wire', 'U1.9', 'R1', undefined]],
    ['wire u1.d0 R1 red', ['wire', 'U1.9', 'R1', 'red']],
    ['wire U1 pin 9 GND', ['wire', 'U1.9', 'GND', undefined]],
    ['connect a3 to U1.D0', ['wire', 'a3', expect.stringMatching(/^U1\.\d+$/), undefined]],
    ['shift U1 3 rows', ['move', ['U1'], [3, 0]]],
    ['shift u1 2 left', ['move', ['U1'], [-2, 0]]],
    ['move B1 1 down', ['move', ['B1'], [0, 1]]],
    ['place 4k7 resistor at e14', ['place', { kind: 'resistor', params: { ohms: 4700 }, at: 'e14' }]],
    ['place 4k7 resistor from e14 to e18', ['place', { kind: 'resistor', params: { ohms: 4700 }, at: 'e14', to: 'e18' }]],
    ['place resistor', ['place', { kind: 'resistor' }]],
    ['store 5A 3C in U1 at 003', ['store', 'U1', '003', '5A 3C']],
  ])('%s does it', async (line, does) => {
    built.length = 0;
    expect((await runLine(line, COMMANDS, desk)).ok).toBe(true);
    expect(built).toEqual([does]);
  });

  test.each([
    ['swich S1 3 on', 'No command "swich S1 3 on". Did you mean switch?'],
    ['qqq', 'No command "qqq". Type "keys" for the list.'],
    ['clear', 'No command "clear".'],
    ['run', 'No command "run".'],
    ['look inside', '"inside view" needs CHIP'],
    ['findin', 'Did you mean findings'],
    ['dele R1', 'Did you mean delete'],
    ['call S1.6 hot', 'S1 has no pole 6. It has poles 1 to 5.'],
    ['call S1.cold hot', 'S1 has no pole cold. It has poles 1 to 5.'],
    ['call R1.1 hot', 'No switch R1 on this bench. It has S1.'],
    ['set R1 4k7', 'Write "to" before "4k7", for example: set R1 to 4k7.'],
    ['set R1', '"set" needs to VALUE or COLOUR'],
    ['wire a3', '"wire" needs to PIN, PART, RAIL or HOLE, for example: wire U1.D3 LED4.'],
    ['shift R1 3 sideways', '"sideways" is not a direction. Write rows, left, up or down.'],
    ['shift R1 three', '"three" is not a whole number.'],
    ['rotate R1 R99', 'No part or wire on this bench is called R99.'],
    ['switch', '"switch" needs SWITCH, for example: switch S1 3 on.'],
    ['switch S9 3 on', 'No switch S9 on this bench. It has PS1, S1.'],
    ['switch S1 9 on', 'S1 (sensors) has no pole 9: it has 1 to 5.'],
    ['switch S1 win', 'S1 (sensors) has 5 poles. Write a pole, then on or off, for example: switch S1 1 on.'],
    ['switch S1 101', 'S1 (sensors) has 5 poles. Write 5 digits, not 3.'],
    ['switch S1 3 up', '"up" is neither on nor off.'],
    ['press S1', 'No button S1 on this bench.'],
    ['move end W99 from a1 to a2', 'No wire W99 on this bench.'],
    ['move end W1 from a1 to a2', 'W1 has no end at a1. It goes from PS1.+ to +j8.'],
    ['zoom to Q7', 'Nothing on this bench is called Q7. Write a part such as PS1, a wire, or a hole such as a12.'],
    ['why R1', 'Resistor R1 has no why of its own. Ask about an LED (LED1), a pin (U1.A7), a wire (W1) or a memory (U1).'],
    ['open cellar', 'No demonstration "cellar". There are greenhouse.'],
    ['undo', 'Nothing to undo. Only edits are undone'],
    ['undo it', '"undo" takes no "it".'],
    ['replace R1', 'R1 is not damaged.'],
  ])('%s is refused with the cure, and does nothing', async (line, says) => {
    built.length = 0;
    shown.length = 0;
    expect(await done(line)).toContain(says);
    expect([acts, built, shown]).toEqual([[], [], []]);
  });
});

describe('a new table', () => {
  const run = async (line: string) => {
    const edits: unknown[] = [];
    const pages: unknown[] = [];
    const session = { model: bench, edit: (change: unknown) => void edits.push(change) };
    const context = { ...desk, session, showPage: (place: unknown) => pages.push(place) } as unknown as CommandContext;
    return { answer: await runLine(line, COMMANDS, context), edits, pages };
  };

  test('of so many inputs and outputs is one change, and is shown', async () => {
    const { answer, edits, pages } = await run('new table 3 inputs 2 outputs');
    expect(answer).toEqual({ ok: true, value: 'Table of 3 inputs and 2 outputs. Undo brings back what was there.' });
    expect(edits).toHaveLength(1);
    expect(edits[0]).toMatchObject({
      op: 'set',
      field: 'wanted',
      before: bench.plan.wanted,
      after: { dontCare: [3, 3, 3, 3, 3, 3, 3, 3] },
    });
    expect(pages).toEqual([{ page: 'table' }]);
  });

  test('of more inputs than the memory has address pins, or of none, is refused', async () => {
    for (const [line, says] of [
      ['new table 12 inputs 2 outputs', 'A table here has 1 to 11 inputs, not 12.'],
      ['new table of mine', '"of mine" names no number of inputs.'],
    ] as const) {
      const { answer, edits } = await run(line);
      expect(answer).toMatchObject({ ok: false, failure: { says: expect.stringContaining(says) } });
      expect(edits).toEqual([]);
    }
  });
});

describe('tidy wiring', () => {
  const figures = { wires: 2, length: 9, longest: 5, crossings: 1, near: 0, over: 0 };
  const plan = bench.plan;
  const tidy = { ...plan, wires: plan.wires.map((w, i) => (i === 0 ? { ...w, colour: 'pink' } : w)) };
  const run = (answer: unknown, meanwhile = () => {}) => {
    const edits: unknown[] = [];
    const asked: unknown[] = [];
    const session = { model: bench as object, plan, edit: (change: unknown) => edits.push(change) };
    const jobs = {
      begin: async (job: unknown) => {
        asked.push(job);
        await Promise.resolve();
        meanwhile();
        return answer;
      },
    };
    const context = { ...desk, session, jobs, builder: { selection: new Set(['R1']) } } as unknown as CommandContext;
    return { session, edits, asked, said: runLine('tidy wiring', COMMANDS, context) };
  };
  const found = { ok: true, value: { plan: tidy, before: figures, after: { ...figures, crossings: 0 } } };

  test('asks for it with what is selected locked, and makes one change of it', async () => {
    const { edits, asked, said } = run(found);
    expect(await said).toMatchObject({
      ok: true,
      value: expect.stringMatching(/^Crossings: 1 before, 0 now; .*The circuit is the same\.$/),
    });
    expect(asked).toEqual([{ job: 'tidy', plan, locked: ['R1'] }]);
    expect(edits).toEqual([difference(plan, tidy)]);
  });

  test('moves nothing on a bench that was changed meanwhile, nor when another command was begun', async () => {
    let bench: { model: object } | undefined;
    const changed = run(found, () => {
      if (bench) bench.model = {};
    });
    bench = changed.session;
    expect(await changed.said).toMatchObject({ ok: false, failure: { says: expect.stringContaining('was changed while') } });
    const stopped = run(undefined);
    expect(await stopped.said).toMatchObject({ ok: false });
    expect([changed.edits, stopped.edits]).toEqual([[], []]);
  });
});

describe('what is typed in part', () => {
  const first = (text: string) => choicesFor(text, COMMANDS, desk)[0]?.line;

  test.each([
    ['', COMMANDS[0]!.name],
    ['fin', 'findings'],
    ['zm', 'zoom in'],
    ['grnhs', 'open greenhouse'],
    ['rem', 'delete'],
    ['swi', 'switch'],
    ['4k7', 'place 4k7'],
    ['rotate l', 'rotate left'],
    ['switch S1 win', 'switch S1 4'],
    ['set R1 ', 'set R1 to'],
    ['wire a3 to b17 vio', 'wire a3 to b17 violet'],
    ['meter v', 'meter volts'],
    ['move end W1 from ', 'move end W1 from PS1.+'],
    ['why mist', `why ${MISTER_LED}`],
  ])('"%s" suggests %s', (text, line) => {
    expect(first(text)).toBe(line);
  });

  test('a letter that is not there finds nothing; whole words come before scattered letters', () => {
    expect(likeness('zq', 'zoom')).toBe(0);
    expect(likeness('wire', 'wire')).toBeGreaterThan(likeness('wire', 'what is read'));
  });

  test('letters put in, left out, changed and swapped count one each', () => {
    expect(['delet', 'deletee', 'dalete', 'deleet', 'delete', 'eltee'].map((w) => misspelling(w, 'delete'))).toEqual([1, 1, 1, 1, 0, 2]);
    expect(nearestActions('udno', COMMANDS)[0]).toBe('undo');
    expect(nearestActions('dup', COMMANDS)[0]).toBe('duplicate');
  });
});
