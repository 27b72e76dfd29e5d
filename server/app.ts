/** The server, put together: security headers, the API, the built page with its caching, and a sentence for every refusal. */

import fastifyStatic from '@fastify/static';
import fastify, { type FastifyInstance, type FastifyReply, type FastifyRequest } from 'fastify';
import type { Checker } from './check/check-thread.ts';
import { refuseInSentences, refuseUnread } from './error-handler.ts';
import { serveApi } from './routes.ts';

/** Inline styles are allowed, because drawings have style attributes; data and blob pictures, because exports are drawn from them. */
const CONTENT = [
  "default-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "worker-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const HEADERS = {
  'content-security-policy': CONTENT,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  // these two let the page share memory with its worker
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
};

async function securityHeaders(_request: FastifyRequest, reply: FastifyReply): Promise<void> {
  reply.headers(HEADERS);
}

async function serveFiles(app: FastifyInstance, clientDir: string): Promise<void> {
  await app.register(fastifyStatic, {
    root: clientDir,
    preCompressed: true,
    cacheControl: false,
    setHeaders: (reply, path) => {
      reply.header('cache-control', path.startsWith(`${clientDir}/assets/`) ? 'public, max-age=31536000, immutable' : 'no-cache');
      reply.header('vary', 'accept-encoding');
    },
  });
}

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
    // what is being answered at a stop is answered first
    forceCloseConnections: 'idle',
    // an address that cannot be read comes to no hook and no handler
    frameworkErrors: (e, request, reply) => refuseUnread(e, request.url, reply.headers(HEADERS)),
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
