/** Every refusal as one clear sentence, whatever went wrong and wherever. */
import type { FastifyError, FastifyInstance, FastifyReply } from 'fastify';
import type { Refusal } from '../shared/api.ts';

export const refuse = (reply: FastifyReply, status: number, at: string, says: string): FastifyReply =>
  reply.code(status).send({ at, says } satisfies Refusal);

/** Codes of the framework that a stranger can cause, in our words. */
const SENTENCES: Readonly<Record<string, (limit: number) => string>> = {
  FST_ERR_CTP_BODY_TOO_LARGE: (limit) =>
    `The plan is larger than ${limit / 1024 / 1024} MB, the most that is taken here. Send a smaller one.`,
  FST_ERR_CTP_INVALID_MEDIA_TYPE: () => 'Send the plan as JSON, with the header content-type: application/json.',
  FST_ERR_CTP_EMPTY_JSON_BODY: () => 'The body is empty. Send a plan as JSON.',
};

export function refuseInSentences(app: FastifyInstance): void {
  app.setErrorHandler((e: FastifyError, request, reply) => {
    const known = SENTENCES[e.code]?.(app.initialConfig.bodyLimit ?? 0);
    const status = e.statusCode ?? 500;
    if (known) return refuse(reply, status, request.url, known);
    if (status < 500) return refuse(reply, status, request.url, `The request could not be read: ${e.message}.`);
    console.error(e);
    return refuse(
      reply,
      500,
      request.url,
      'Something inside Lampwright broke; your plan is not to blame. What happened is in the log of the server.',
    );
  });
  app.setNotFoundHandler((request, reply) => {
    const path = request.url.split('?')[0] ?? '';
    if (path.startsWith('/api'))
      return refuse(
        reply,
        404,
        path,
        `There is nothing at ${request.method} ${path}. Look at /api/health, /api/plans, /api/schema/plan or send a plan to /api/check.`,
      );
    return reply.code(404).type('text/plain; charset=utf-8').send(`There is nothing at ${path}. The bench is at /.\n`);
  });
}
