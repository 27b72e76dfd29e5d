/** The server, put together: security headers, the API, the built page, and a sentence for every refusal. */
import fastify, { type FastifyInstance } from 'fastify';
import type { Checker } from './check/check-thread.ts';
import { refuseInSentences } from './error-handler.ts';
import { serveApi } from './routes.ts';
import { securityHeaders } from './security-headers.ts';
import { serveFiles } from './static-files.ts';

export interface AppOptions {
  readonly checker: Checker;
  /** folder of the built page; absent: only the API is served */
  readonly clientDir?: string;
}

/** Largest body of a request [bytes]. */
const MOST_BYTES = 2 * 1024 * 1024;

export async function buildApp({ checker, clientDir }: AppOptions): Promise<FastifyInstance> {
  const app = fastify({
    bodyLimit: MOST_BYTES,
    forceCloseConnections: true,
    requestTimeout: 30_000,
    ajv: { customOptions: { coerceTypes: false, removeAdditional: false } },
  });
  app.addHook('onRequest', securityHeaders);
  // a client that is still sending must be able to read the refusal: the rest of its body is received and dropped, and the connection stays
  app.addHook('onSend', async (_request, reply) => {
    if (reply.statusCode === 413) reply.removeHeader('connection');
  });
  app.addHook('onClose', () => checker.close());
  refuseInSentences(app);
  serveApi(app, checker);
  if (clientDir !== undefined) await serveFiles(app, clientDir);
  return app;
}
