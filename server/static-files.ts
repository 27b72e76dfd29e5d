/** The built client as files: what is named after its contents is kept for a year, the rest is asked for anew. */
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';

export async function serveFiles(app: FastifyInstance, clientDir: string): Promise<void> {
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
