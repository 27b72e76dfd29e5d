/** Real connections: a client that leaves ends its check, and a server that is asked to stop answers what it was asked before. */
import { once } from 'node:events';
import { request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { expect, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import type { Checker } from '../../server/check/check-thread.ts';
import { done } from '../../shared/outcome.ts';

/** A server whose checks last until the test ends them. */
async function slowServer() {
  const asked: Array<{ readonly left: AbortSignal | undefined; readonly answer: () => void }> = [];
  const checker: Checker = {
    check: (_, left) => new Promise((resolve) => asked.push({ left, answer: () => resolve(done({ findings: [] })) })),
    close: async () => {},
  };
  const app = await buildApp({ checker });
  await app.listen({ port: 0, host: '127.0.0.1' });
  const { port } = app.server.address() as AddressInfo;
  const ask = () => {
    const out = request({ port, host: '127.0.0.1', method: 'POST', path: '/api/check', headers: { 'content-type': 'application/json' } });
    out.end('{}');
    return out;
  };
  return { app, ask, asked };
}

test('a client that leaves is noticed, and its check told', async () => {
  const { app, ask, asked } = await slowServer();
  const out = ask();
  out.on('error', () => {});
  await expect.poll(() => asked.length).toBe(1);
  out.destroy();
  await expect.poll(() => asked[0]!.left?.aborted).toBe(true);
  asked[0]!.answer();
  await app.close();
});

test('a client that gets its answer has not left', async () => {
  const { app, ask, asked } = await slowServer();
  const reply = once(ask(), 'response');
  await expect.poll(() => asked.length).toBe(1);
  expect(asked[0]!.left?.aborted).toBe(false);
  asked[0]!.answer();
  expect((await reply)[0].statusCode).toBe(200);
  await app.close();
});

test('a server that is asked to stop answers what is under way', async () => {
  const { app, ask, asked } = await slowServer();
  const reply = once(ask(), 'response');
  await expect.poll(() => asked.length).toBe(1);
  const closed = app.close();
  asked[0]!.answer();
  expect((await reply)[0].statusCode).toBe(200);
  await closed;
});
