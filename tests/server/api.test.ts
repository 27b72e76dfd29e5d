/** The API, asked from inside: what it answers, what it refuses, and that every refusal is one sentence. */
import { Check } from 'typebox/value';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { checksHere } from '../../server/check/inline-checker.ts';
import { CheckReply, Health, PlanList, Refusal } from '../../shared/api.ts';
import { DEMO_PLANS, demoPlan } from '../../shared/demo-plans.ts';
import type { FailureCode } from '../../shared/failure-codes.ts';
import { Plan } from '../../shared/plan.ts';
import { ledPlan, planWith } from '../support/plans.ts';

let app: Awaited<ReturnType<typeof buildApp>>;
beforeAll(async () => {
  app = await buildApp({ checker: checksHere });
});
afterAll(() => app.close());

const get = (url: string) => app.inject({ method: 'GET', url });
const check = (payload: string, type = 'application/json') =>
  app.inject({ method: 'POST', url: '/api/check', payload, headers: { 'content-type': type } });

describe('what is there', () => {
  test('health', async () => {
    const reply = await get('/api/health');
    expect(reply.statusCode).toBe(200);
    expect(Check(Health, reply.json())).toBe(true);
  });

  test('the demonstration plans, listed and each one whole', async () => {
    const list = (await get('/api/plans')).json();
    expect(Check(PlanList, list)).toBe(true);
    expect(list).toHaveLength(DEMO_PLANS.length);
    expect(list.length).toBeGreaterThanOrEqual(8);
    for (const { id, title } of list) {
      const plan = (await get(`/api/plans/${id}`)).json();
      expect(Check(Plan, plan), id).toBe(true);
      expect(plan.title).toBe(title);
    }
  });

  test("the plan's JSON Schema", async () => {
    expect((await get('/api/schema/plan')).json()).toMatchObject({ $id: 'lampwright-plan-2', type: 'object' });
  });

  test('security headers on every reply', async () => {
    for (const url of ['/api/health', '/api/nothing', '/nothing'])
      expect((await get(url)).headers).toMatchObject({
        'content-security-policy': expect.stringContaining("default-src 'self'"),
        'x-content-type-options': 'nosniff',
        'referrer-policy': 'no-referrer',
        'cross-origin-opener-policy': 'same-origin',
      });
  });
});

describe('checking a plan', () => {
  test('an LED with its resistor harms nothing', async () => {
    const reply = await check(JSON.stringify(ledPlan(330)));
    expect(reply.statusCode).toBe(200);
    expect(Check(CheckReply, reply.json())).toBe(true);
    expect(reply.json().findings.filter((f: { severity: string }) => f.severity === 'damage-risk')).toEqual([]);
  });

  test('a bench with a truth table is asked for every row', async () => {
    const reply = await check(JSON.stringify(demoPlan('greenhouse-dark-mister')));
    expect(Check(CheckReply, reply.json())).toBe(true);
    expect(reply.json().rows).toEqual({ tried: 32, of: 32 });
    expect(reply.json().findings.map((f: { code: string }) => f.code)).toContain('table/rows-wrong');
  });

  test('an LED with far too small a resistor is reported with figure, limit and cure', async () => {
    const { findings } = (await check(JSON.stringify(ledPlan(10)))).json();
    const over = findings.find((f: { code: string }) => f.code === 'led/over-current');
    expect(over).toMatchObject({ severity: 'damage-risk', says: expect.stringMatching(/LED1.* mA.*30 mA.* Ω /) });
  });
});

describe('refusals', () => {
  const refusals: ReadonlyArray<readonly [what: string, body: string, status: number, code: FailureCode, says: RegExp]> = [
    [
      'an unknown part',
      JSON.stringify(planWith({ parts: [{ id: 'Q1', kind: 'flux-valve', at: 'a1' }] })),
      422,
      'plan/unknown-part',
      /^Q1.*flux-valve.*\.$/,
    ],
    [
      'a position off the board',
      JSON.stringify(planWith({ parts: [{ id: 'R1', kind: 'resistor', at: 'a1', to: 'a64' }] })),
      422,
      'plan/unknown-hole',
      /^R1: a64 is off the board: B1 has rows 1 to 63\.$/,
    ],
    [
      'two legs in one hole',
      JSON.stringify(
        planWith({
          parts: [
            { id: 'R1', kind: 'resistor', at: 'a1', to: 'a5' },
            { id: 'R2', kind: 'resistor', at: 'a5', to: 'a9' },
          ],
        }),
      ),
      422,
      'plan/hole-taken',
      /^a5 is taken by R1 pin 2, so R2 pin 1 cannot go there\./,
    ],
    [
      'a wrong version',
      JSON.stringify({ ...ledPlan(330), version: 7 }),
      422,
      'plan/unknown-version',
      /^The plan is version 7, newer than the version 2/,
    ],
    [
      'a cut-off file',
      JSON.stringify(ledPlan(330)).slice(0, 300),
      422,
      'plan/broken-json',
      /^The plan is cut off: it ends at line 1, column 301 /,
    ],
    ['an empty body', '', 422, 'plan/empty', /^The plan is empty\./],
    ['3 MB', `"${'x'.repeat(3 * 1024 * 1024)}"`, 413, 'api/too-large', /^The plan is larger than 2 MB/],
  ];
  test.each(refusals)('%s', async (_, body, status, code, says) => {
    const reply = await check(body);
    expect(reply.statusCode).toBe(status);
    expect(Check(Refusal, reply.json())).toBe(true);
    expect(reply.json()).toMatchObject({ code, says: expect.stringMatching(says) });
    expect(reply.json().says.endsWith('.')).toBe(true);
  });

  test.each(['application/x-www-form-urlencoded', 'text/plain'])('a body that is called %s', async (type) => {
    const reply = await check(JSON.stringify(ledPlan(330)), type);
    expect(reply.statusCode).toBe(415);
    expect(reply.json()).toMatchObject({
      code: 'api/wrong-type',
      says: 'Send the plan as JSON, with the header content-type: application/json.',
    });
  });

  test('a demonstration plan that does not exist', async () => {
    const reply = await get('/api/plans/moonbase');
    expect(reply.statusCode).toBe(404);
    expect(reply.json().says).toMatch(/^There is no demonstration called moonbase\. There are .*\.$/);
  });

  test.each(['/api', '/api/', '/api/nothing?x=1'])('%s, where nothing is', async (url) => {
    const reply = await get(url);
    expect(reply.statusCode).toBe(404);
    expect(Check(Refusal, reply.json())).toBe(true);
    expect(reply.json().code).toBe('api/not-found');
  });

  test.each(['/api/plans/%zz', '/%', '/api/plans/%c3%28'])('an address that cannot be read: %s', async (url) => {
    const reply = await get(url);
    expect(reply.statusCode).toBe(400);
    expect(Check(Refusal, reply.json())).toBe(true);
    expect(reply.json()).toMatchObject({ code: 'api/bad-request', says: expect.stringContaining(url) });
    expect(reply.headers).toMatchObject({ 'x-content-type-options': 'nosniff' });
  });

  test('a file that does not exist is not answered with the page', async () => {
    const reply = await get('/assets/nothing.js');
    expect([reply.statusCode, reply.headers['content-type']]).toEqual([404, 'text/plain; charset=utf-8']);
    expect(reply.body).toBe('There is nothing at /assets/nothing.js. The bench is at /.\n');
  });
});
