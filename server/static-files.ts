/** The built page as files: those named after their contents are cached for a year, all others are revalidated. */
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
