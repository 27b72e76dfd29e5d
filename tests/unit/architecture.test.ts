/** The architecture as drawn in DEVELOPERS.md: who may import whom, what every file begins with, and that nothing is left out of a catalogue. */
import { describe, expect, test } from 'vitest';
import type { Device } from '../../sim-core/devices/network.ts';
import { RULES } from '../../sim-core/findings/catalogue.ts';
import { PARTS } from '../../sim-core/parts/catalogue.ts';
import type { Ref } from '../../sim-core/sentence/wording.ts';
import { readSources, type Source } from '../support/sources.ts';

const product = readSources('client', 'server', 'shared', 'sim-core');
const core = product.filter((s) => s.path.startsWith('sim-core/'));
const everything = [...product, ...readSources('tests')];

/** Rooms from the left of the picture to the right; one line holds neighbours that do not know each other. */
const CORE_ROOMS: ReadonlyArray<readonly string[]> = [
  ['sim-core/demos'],
  ['sim-core/sheet'],
  ['sim-core/build'],
  ['sim-core/text'],
  ['sim-core/why'],
  ['sim-core/repair'],
  ['sim-core/faults'],
  ['sim-core/findings'],
  ['sim-core/fixes', 'sim-core/tolerance', 'sim-core/record'],
  ['sim-core/run'],
  ['sim-core/sentence', 'sim-core/formats', 'sim-core/tidy'],
  ['sim-core/parts'],
  ['sim-core/devices'],
  ['sim-core/document'],
  ['sim-core/solve', 'sim-core/board'],
  ['sim-core/logic'],
  ['sim-core/units'],
];
const CLIENT_ROOMS: ReadonlyArray<readonly string[]> = [
  ['client/main'],
  ['client/app'],
  ['client/commands'],
  ['client/sheet'],
  ['client/panel', 'client/inside'],
  ['client/bench', 'client/timing', 'client/plans'],
  ['client/edit'],
  ['client/scene'],
  ['client/state'],
  ['client/ui', 'client/worker', 'client/theme'],
];
const SERVER_ROOMS: ReadonlyArray<readonly string[]> = [['server'], ['server/cli'], ['server/check']];
/** The whole house. What stands in sim-core itself is its face; page and server do not know each other. */
const ROOMS = [...CLIENT_ROOMS, ...SERVER_ROOMS, ['sim-core'], ...CORE_ROOMS, ['shared']];
const rankOf = (room: string) => ROOMS.findIndex((names) => names.includes(room));
/** 'sim-core/run/api.ts' → 'sim-core/run'; 'client/main.ts' → 'client/main'; 'server/app.ts' → 'server'; 'shared/demos/x.ts' → 'shared' */
function roomOf(path: string): string {
  const [top = '', second = '', deeper] = path.split('/');
  if (top === 'shared') return top;
  if (deeper !== undefined) return `${top}/${second}`;
  return top === 'client' ? `${top}/${second.replace(/\.ts$/, '')}` : top;
}
const isFace = (path: string) => roomOf(path) === 'sim-core';

/** The one part id that inside sim-core may also mean the electrical primitive of that name. */
const PRIMITIVE: Device['kind'] = 'capacitor';
/** The one part id that is also the word for whatever lights, in references and groups: a segment of a display as well. */
const INDICATOR: Ref['kind'] = 'led';

/** Imports that break a rule, printed as "from → to". */
const breaches = (sources: readonly Source[], wrong: (from: string, to: string, own: boolean, typeOnly: boolean) => boolean): string[] =>
  sources.flatMap((s) => s.imports.filter((i) => wrong(s.path, i.to, i.own, i.typeOnly)).map((i) => `${s.path} → ${i.to}`));

test('no import is overlooked by the reader of this test', () => {
  const clauses = (s: Source) => s.text.match(/^(?:import|export|\}).* from '[^']+'/gm)?.length ?? 0;
  expect(everything.filter((s) => clauses(s) > s.imports.length).map((s) => s.path)).toEqual([]);
});

test('the rooms are all known', () => {
  const rooms = [...new Set(product.map((s) => roomOf(s.path)))];
  expect(rooms.filter((r) => rankOf(r) < 0)).toEqual([]);
  expect(ROOMS.flat().filter((r) => !rooms.includes(r))).toEqual([]);
});

describe('imports', () => {
  test('point to files that exist', () => {
    const paths = new Set(everything.map((s) => s.path));
    expect(breaches(everything, (_, to, own) => own && to.endsWith('.ts') && !paths.has(to) && !to.endsWith('.config.ts'))).toEqual([]);
  });

  test('a room imports only itself and rooms to its right', () => {
    expect(
      breaches(product, (from, to, own) => {
        const [a, b] = [roomOf(from), roomOf(to)];
        return own && rankOf(b) >= 0 && a !== b && rankOf(a) >= rankOf(b);
      }),
    ).toEqual([]);
  });

  test('nothing in a room of sim-core imports its face', () => {
    expect(breaches(core, (from, to) => !isFace(from) && to.startsWith('sim-core/') && isFace(to))).toEqual([]);
  });

  test('the scene only draws: of the state it knows what stands on the bench and how that is said, not the session', () => {
    const scene = product.filter((s) => s.path.startsWith('client/scene/'));
    const known = ['client/state/bench-model.ts', 'client/state/damage-text.ts', 'client/state/display-text.ts'];
    expect(breaches(scene, (_, to) => to.startsWith('client/state/') && !known.includes(to))).toEqual([]);
  });

  test('sim-core imports no package, nothing of Node, and of all else only shared', () => {
    expect(breaches(core, (_, to, own) => !own || !/^(sim-core|shared)\//.test(to))).toEqual([]);
  });

  test('shared knows only itself and the library that schemas are written in', () => {
    const shared = product.filter((s) => s.path.startsWith('shared/'));
    expect(breaches(shared, (_, to, own) => (own ? !to.startsWith('shared/') : !to.startsWith('typebox')))).toEqual([]);
  });

  test('client and server know sim-core by its face only', () => {
    const outside = product.filter((s) => /^(client|server)\//.test(s.path));
    expect(breaches(outside, (_, to) => to.startsWith('sim-core/') && to !== 'sim-core/index.ts')).toEqual([]);
  });

  test('client and server do not know each other', () => {
    expect(breaches(product, (from, to) => from.startsWith('client/') && to.startsWith('server/'))).toEqual([]);
    expect(breaches(product, (from, to) => from.startsWith('server/') && to.startsWith('client/'))).toEqual([]);
  });

  test('the product imports nothing from the tests', () => {
    expect(breaches(product, (_, to) => to.startsWith('tests/'))).toEqual([]);
  });

  test('there is no circle', () => {
    expect(circle(everything)).toEqual([]);
  });
});

/** One circle of imports as a list of paths; empty if there is none. Types count too. */
function circle(sources: readonly Source[]): string[] {
  const byPath = new Map(sources.map((s) => [s.path, s]));
  const finished = new Set<string>();
  const walk = (path: string, trail: readonly string[]): string[] => {
    if (trail.includes(path)) return [...trail.slice(trail.indexOf(path)), path];
    if (finished.has(path)) return [];
    for (const i of byPath.get(path)?.imports ?? []) {
      const found = i.own ? walk(i.to, [...trail, path]) : [];
      if (found.length > 0) return found;
    }
    finished.add(path);
    return [];
  };
  for (const s of sources) {
    const found = walk(s.path, []);
    if (found.length > 0) return found;
  }
  return [];
}

describe('catalogues', () => {
  const listedIn = (catalogue: string) => core.find((s) => s.path === catalogue)?.imports.map((i) => i.to) ?? [];

  test('every part file is listed', () => {
    const parts = core.filter(
      (s) => /^sim-core\/parts\/[^/]+\.ts$/.test(s.path) && !/\/(part|catalogue|footprint-index)\.ts$/.test(s.path),
    );
    expect(parts.length).toBeGreaterThan(5);
    expect(parts.map((s) => s.path).filter((p) => !listedIn('sim-core/parts/catalogue.ts').includes(p))).toEqual([]);
  });

  test('every finding is listed', () => {
    const findings = core.filter((s) => /^sim-core\/findings\/rules\/[^/]+\/[^/]+\.ts$/.test(s.path));
    expect(findings.length).toBeGreaterThan(5);
    expect(findings.map((s) => s.path).filter((p) => !listedIn('sim-core/findings/catalogue.ts').includes(p))).toEqual([]);
  });

  test('every kind of mistake is listed', () => {
    const kinds = core.filter((s) => /^sim-core\/faults\/kinds\/[^/]+\.ts$/.test(s.path));
    expect(kinds.length).toBeGreaterThan(36);
    expect(kinds.map((s) => s.path).filter((p) => !listedIn('sim-core/faults/catalogue.ts').includes(p))).toEqual([]);
  });

  test('no rule is treated specially: its code is written in its own file only', () => {
    const guilty = RULES.flatMap(({ code }) =>
      product.filter((s) => s.path !== `sim-core/findings/rules/${code}.ts` && new RegExp(`['"\`]${code}['"\`]`).test(s.text)),
    );
    expect(guilty.map((s) => s.path)).toEqual([]);
  });

  test('no part is treated specially: its id is written in its own file, its face and the demonstrations only', () => {
    const own = /^sim-core\/(parts|demos)\/|^shared\/upgrade-plan\.ts$|^client\/scene\/faces\//;
    const ids = PARTS.map((p) => p.id).filter((id) => id !== INDICATOR);
    const literal = (names: readonly string[]) => new RegExp(`['"\`](${names.join('|')})['"\`]`);
    const anywhere = literal(ids);
    const inCore = literal(ids.filter((id) => id !== PRIMITIVE));
    const guilty = product
      .filter((s) => !own.test(s.path))
      .flatMap((s) =>
        s.text
          .split('\n')
          .map((line, i) => ({ line, where: `${s.path}:${i + 1}`, literal: s.path.startsWith('sim-core/') ? inCore : anywhere })),
      )
      .filter(({ line, literal }) => literal.test(line));
    expect(guilty.map(({ line, where }) => `${where} ${line.trim()}`)).toEqual([]);
  });
});

describe('names', () => {
  test('no exported type or value name stands twice', () => {
    const files = new Map<string, Set<string>>();
    for (const s of product)
      for (const [, name = ''] of s.text.matchAll(
        /^export (?:declare )?(?:abstract )?(?:async )?(?:const|let|function\*?|class|interface|type) (\w+)/gm,
      ))
        files.set(name, (files.get(name) ?? new Set()).add(s.path));
    expect(files.size).toBeGreaterThan(1000);
    expect([...files].filter(([, at]) => at.size > 1).map(([name, at]) => `${name}: ${[...at].join(', ')}`)).toEqual([]);
  });
});

describe('files', () => {
  test('every one begins by saying in one sentence what it knows', () => {
    expect(everything.filter((s) => !/^\/\*\*\s+\S/.test(s.text)).map((s) => s.path)).toEqual([]);
  });

  test('none is longer than 400 lines', () => {
    expect(everything.filter((s) => s.text.split('\n').length > 400).map((s) => s.path)).toEqual([]);
  });

  test('names are kebab-case and say what the file is about', () => {
    const names = everything.map((s) => s.path.replace(/^.*\//, ''));
    expect(
      names.filter(
        (n) => !/^[a-z0-9]+(-[a-z0-9]+)*(\.test|\.config|\.d)?\.ts$/.test(n) || /^(utils?|helpers?|types?|common|manager)\.ts$/.test(n),
      ),
    ).toEqual([]);
  });
});
