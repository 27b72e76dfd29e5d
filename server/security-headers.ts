/** The security headers of every reply: the page loads only its own files and is embedded nowhere. */
import type { FastifyReply, FastifyRequest } from 'fastify';

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

export async function securityHeaders(_request: FastifyRequest, reply: FastifyReply): Promise<void> {
  reply.headers(HEADERS);
}
