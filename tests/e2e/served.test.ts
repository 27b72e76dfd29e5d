/** The built server as a stranger meets it: caching, compression, the size of the first load, and a check in a real thread. */
import { describe, expect, inject, test } from 'vitest';
import { ledPlan } from '../support/plans.ts';

const url = inject('url');
const get = (path: string, headers: Record<string, string> = {}) => fetch(new URL(path, url), { headers });

/** Scripts and styles that the page itself asks for first. */
async function firstFiles(): Promise<string[]> {
  const page = await (await get('/')).text();
  return [...page.matchAll(/(?:src|href)="(\/assets\/[^"]+\.(?:js|css))"/g)].map((m) => m[1]!);
}

describe('files', () => {
  test('the page is asked for again, what carries its hash in the name is kept', async () => {
    expect((await get('/')).headers.get('cache-control')).toBe('no-cache');
    expect((await get('/sw.js')).headers.get('cache-control')).toBe('no-cache');
    const files = await firstFiles();
    expect(files.length).toBeGreaterThan(0);
    for (const file of files) expect((await get(file)).headers.get('cache-control')).toBe('public, max-age=31536000, immutable');
  });

  test('scripts come compressed to those who take it', async () => {
    const [script = ''] = (await firstFiles()).filter((f) => f.endsWith('.js'));
    for (const encoding of ['br', 'gzip'])
      expect((await get(script, { 'accept-encoding': encoding })).headers.get('content-encoding')).toBe(encoding);
    expect((await get(script, { 'accept-encoding': 'identity' })).headers.get('content-encoding')).toBeNull();
  });

  test('a file that is not there is not answered with the page', async () => {
    expect((await get('/assets/nothing.js')).status).toBe(404);
  });

  test('nothing outside the built client is served', async () => {
    for (const path of ['/%2e%2e/server/main.js', '/..%2fserver%2fmain.js', '/assets/%2e%2e/%2e%2e/server/main.js']) {
      const reply = await get(path);
      expect([403, 404], path).toContain(reply.status);
    }
  });
});

/** As sent compressed [bytes]. */
const sent = async (script: string) => Number((await get(script, { 'accept-encoding': 'gzip' })).headers.get('content-length'));
const sum = async (scripts: readonly string[]) => (await Promise.all(scripts.map(sent))).reduce((a, b) => a + b, 0);

test('what the page itself runs is under 200 kB compressed, and all scripts together, workers and later pages included, under 545 kB', async () => {
  const precache = /"files":(\[[^\]]*\])/.exec(await (await get('/sw.js')).text())?.[1] ?? '[]';
  const all = (JSON.parse(precache) as string[]).filter((f) => f.endsWith('.js'));
  const first = [...(await (await get('/')).text()).matchAll(/(?:src|href)="([^"]+\.js)"/g)].map((m) => m[1]!);
  expect(first.length).toBeGreaterThan(0);
  expect(all).toEqual(expect.arrayContaining(first));
  const [page, together] = [await sum(first), await sum(all)];
  expect(page).toBeGreaterThan(10_000);
  expect(page).toBeLessThan(200_000);
  expect(together).toBeLessThan(545_000);
});

describe('a check in its own thread', () => {
  const check = (body: string) =>
    fetch(new URL('/api/check', url), { method: 'POST', body, headers: { 'content-type': 'application/json' } });

  test('answers with findings', async () => {
    const reply = await check(JSON.stringify(ledPlan(10)));
    expect(reply.status).toBe(200);
    expect((await reply.json()).findings).toContainEqual(expect.objectContaining({ code: 'led/over-current' }));
  });

  test('refuses with a sentence', async () => {
    const reply = await check('{"format": "lampwright-plan", "version": 1');
    expect([reply.status, (await reply.json()).says]).toEqual([422, expect.stringMatching(/^The plan is cut off/)]);
  });
});
