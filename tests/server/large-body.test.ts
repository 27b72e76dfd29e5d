/** A body of 100 MB over a real connection: refused with a sentence that reaches whoever still sends, and the server lives on. */
import { request } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { buildApp } from '../../server/app.ts';
import { checksHere } from '../../server/check/inline-checker.ts';

const MEGABYTE = Buffer.alloc(1024 * 1024, 0x20);
const SIZE = 100;

let app: Awaited<ReturnType<typeof buildApp>>;
let port: number;
beforeAll(async () => {
  app = await buildApp({ checker: checksHere });
  await app.listen({ port: 0, host: '127.0.0.1' });
  port = (app.server.address() as AddressInfo).port;
});
afterAll(() => app.close());

/** Sends until the server answers or hangs up. `announced`: with a content-length, or in chunks of a length unknown. */
function sendAll(announced: boolean): Promise<{ status: number; says: string }> {
  return new Promise((resolve, reject) => {
    let sent = 0;
    const headers = { 'content-type': 'application/json', ...(announced ? { 'content-length': SIZE * MEGABYTE.length } : {}) };
    const out = request({ port, host: '127.0.0.1', method: 'POST', path: '/api/check', headers }, (reply) => {
      let body = '';
      reply.on('data', (piece) => {
        body += piece;
      });
      reply.on('end', () => {
        out.destroy();
        resolve({ status: reply.statusCode ?? 0, says: JSON.parse(body).says });
      });
    });
    out.on('error', (e) => (out.destroyed ? undefined : reject(e)));
    const push = () => {
      while (sent < SIZE && !out.destroyed) {
        sent++;
        if (!out.write(MEGABYTE)) {
          out.once('drain', push);
          return;
        }
      }
      if (!out.destroyed) out.end();
    };
    push();
  });
}

test.each([true, false])('announced: %s', async (announced) => {
  const { status, says } = await sendAll(announced);
  expect([status, says]).toEqual([413, 'The plan is larger than 2 MB, the most that this server takes. Send a smaller one.']);
  expect((await app.inject('/api/health')).statusCode).toBe(200);
});
