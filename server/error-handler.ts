/** Every refused request is answered with a failure: its code, the place, and one clear sentence. */
import type { FastifyError, FastifyInstance, FastifyReply } from 'fastify';
import type { Refusal } from '../shared/api.ts';
import type { FailureCode } from '../shared/failure-codes.ts';
import { shortened } from '../shared/quoted.ts';

export const refuse = (reply: FastifyReply, status: number, { code, at, says }: Refusal): FastifyReply =>
  reply.code(status).send({ code, at, says } satisfies Refusal);

/** What a request can do wrong before it comes to a route, by the framework's code. */
const REFUSALS: Readonly<Record<string, readonly [code: FailureCode, says: (limit: number) => string]>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: [
    'api/too-large',
    (limit) => `The plan is larger than ${limit / 1024 / 1024} MB, the most that this server takes. Send a smaller one.`,
  ],
  FST_ERR_CTP_INVALID_MEDIA_TYPE: ['api/wrong-type', () => 'Send the plan as JSON, with the header content-type: application/json.'],
};

/** A request that comes to no route, for its address cannot be read. */
export function refuseUnread(e: FastifyError, url: string, reply: FastifyReply): FastifyReply {
  const says =
    e.code === 'FST_ERR_BAD_URL'
      ? `The address ${shortened(url, 80)} cannot be read: after each % come two hexadecimal digits of a UTF-8 character. Write a plain % as %25.`
      : `The request cannot be read: ${e.message}.`;
  return refuse(reply, e.statusCode ?? 400, { code: 'api/bad-request', at: shortened(url, 80), says });
}

export function refuseInSentences(app: FastifyInstance): void {
  app.setErrorHandler((e: FastifyError, { url }, reply) => {
    const status = e.statusCode ?? 500;
    const [code, says] = REFUSALS[e.code] ?? [];
    if (code && says) return refuse(reply, status, { code, at: url, says: says(app.initialConfig.bodyLimit ?? 0) });
    if (status < 500) return refuse(reply, status, { code: 'api/bad-request', at: url, says: `The request cannot be read: ${e.message}.` });
    console.error(e);
    const broke = 'Something inside Lampwright failed. Your plan is not the cause; the server has written what happened to its log.';
    return refuse(reply, 500, { code: 'api/internal', at: url, says: broke });
  });
  app.setNotFoundHandler(({ url, method }, reply) => {
    const path = url.split('?')[0] ?? '';
    if (!path.startsWith('/api'))
      return reply.code(404).type('text/plain; charset=utf-8').send(`There is nothing at ${path}. The bench is at /.\n`);
    const says = `There is nothing at ${method} ${path}. Try /api/health, /api/plans or /api/schema/plan, or send a plan to /api/check.`;
    return refuse(reply, 404, { code: 'api/not-found', at: path, says });
  });
}
