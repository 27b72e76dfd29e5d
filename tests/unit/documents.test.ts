/** The documents say what is so: links wire somewhere, commands exist, the notation of `press` is listed whole. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import packageJson from '../../package.json' with { type: 'json' };
import { NOTATION } from '../../server/cli/script.ts';
import { readPlan } from '../../shared/read-plan.ts';
import { readBenchText } from '../../sim-core/index.ts';
import { LIMITS, limitSays, MODELLED } from '../../sim-core/text/limits.ts';
import { ROOT } from '../support/sources.ts';

const read = (path: string) => readFileSync(join(ROOT, path), 'utf8');
const DOCUMENTS = ['README.md', 'DEVELOPERS.md', 'sim-core/README.md', 'sim-core/solve/README.md'];

describe.each(DOCUMENTS)('%s', (document) => {
  test('every link leads to a file of the project', () => {
    const links = [...read(document).matchAll(/\]\(([^)#]+)\)/g)].map((m) => m[1]!).filter((l) => !/^https?:/.test(l));
    expect(links.length).toBeGreaterThan(0);
    expect(links.filter((l) => !existsSync(join(ROOT, dirname(document), l)))).toEqual([]);
  });

  test('every npm script that it names exists', () => {
    const named = [...read(document).matchAll(/npm (?:run (?:--silent )?([a-z]+)|(start|test))/g)].map((m) => m[1] ?? m[2]!);
    expect(named.filter((s) => !(s in packageJson.scripts))).toEqual([]);
  });
});

test('the README shows every word of press', () => {
  const readme = read('README.md');
  expect(NOTATION.map(([word]) => word).filter((word) => !readme.includes(`\`${word}\``))).toEqual([]);
});

test('the bench that the README shows as text is read', () => {
  const [, text = ''] = /```\n(lampwright-text 2\n[\s\S]*?)```/.exec(read('README.md')) ?? [];
  const plan = readBenchText(text, (p) => readPlan(JSON.stringify(p)));
  expect(plan.ok ? plan.value.parts.map((p) => p.id) : plan.failure.says).toEqual(['PS1', 'U1', 'S1', 'R1']);
});

test('the README says what is computed and what is not, as the Limits page does', () => {
  const section = (head: string) => new RegExp(`## ${head}\\n([\\s\\S]*?)\\n## `).exec(read('README.md'))?.[1] ?? '';
  const points = (text: string) => [...text.matchAll(/^- ((?:.|\n {2})*)/gm)].map((m) => m[1]?.replace(/\s+/g, ' '));
  const named = (name: string, says: string) => `**${name}**: ${says}`;
  expect(points(section('What is modelled'))).toEqual(MODELLED.map((m) => named(m.name, m.says)));
  expect(points(section('What is not'))).toEqual(LIMITS.map((l) => named(l.name, limitSays(l))));
});

test('.ci/run does what the README says', () => {
  expect(read('README.md')).toContain('npm ci && npm test');
  expect(read('.ci/run')).toMatch(/^npm ci && npm test$/m);
});
