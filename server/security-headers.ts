/** What a browser may do with our pages: only what they are made of, only here. */
import type { FastifyReply, FastifyRequest } from 'fastify';

/** Styles may stand in the markup, because drawings carry theirs in style attributes; pictures may come from memory, because exports are drawn there. */
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
  // both together let the page share memory with its worker
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
};

export async function securityHeaders(_request: FastifyRequest, reply: FastifyReply): Promise<void> {
  reply.headers(HEADERS);
}
