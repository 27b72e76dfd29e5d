/** A whole plan in an address: its text deflated, with a checksum (zlib, RFC 1950), and written in base64url behind "#plan=", or "#view=" where it is to be operated only; and back. */
import type { Plan } from '../../shared/plan.ts';
import { done, failed, grouped, type Outcome } from '../../sim-core/index.ts';

/** What whoever opens the link may do with the bench. */
export type LinkFor = 'edit' | 'operate';
const MARKS: Readonly<Record<LinkFor, string>> = { edit: '#plan=', operate: '#view=' };
/** What passes through mail, chat and address bars unharmed [characters]; from memory. */
const MOST_LINK = 30_000;
/** A text longer than this is no plan of ours, however small it was packed [bytes]. */
const MOST_TEXT = 5_000_000;

export const isReadOnlyLink = (hash: string): boolean => hash.startsWith(MARKS.operate);
export const isLink = (hash: string): boolean => hash.startsWith(MARKS.edit) || isReadOnlyLink(hash);

/** The part of an address that carries this plan. */
export async function linkOf(plan: Plan, opened: LinkFor = 'edit'): Promise<Outcome<string>> {
  const text = new Blob([JSON.stringify(plan)]).stream();
  const packed = await bytesOf(text.pipeThrough(new CompressionStream('deflate')));
  const link = MARKS[opened] + toBase64(packed);
  if (link.length <= MOST_LINK) return done(link);
  return failed(
    'link/too-long',
    'link',
    `A link to this bench would have ${grouped(link.length)} characters; many programs cut links at ${grouped(MOST_LINK)}. Save the bench as a file and send that.`,
  );
}

/** The plan's text out of such a part of an address; whether it is a plan is for the reader of plans to say. */
export async function textOfLink(hash: string): Promise<Outcome<string>> {
  const cut = 'The link is damaged: the plan in it cannot be read. Copy the whole link again, or ask for the bench as a file.';
  if (hash.length > MOST_LINK)
    return failed(
      'link/too-long',
      'link',
      `The link has ${grouped(hash.length)} characters; a link to a bench has at most ${grouped(MOST_LINK)}. Ask for the bench as a file.`,
    );
  const packed = fromBase64(hash.slice(hash.indexOf('=') + 1));
  if (!packed) return failed('link/damaged', 'link', cut);
  try {
    const bytes = await bytesOf(new Blob([packed]).stream().pipeThrough(new DecompressionStream('deflate')), MOST_TEXT);
    if (!bytes)
      return failed(
        'link/too-long',
        'link',
        `The link unpacks to more than ${MOST_TEXT / 1e6} MB; a plan has at most that. Ask for the bench as a file.`,
      );
    return done(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return failed('link/damaged', 'link', cut);
  }
}

async function bytesOf(stream: ReadableStream<Uint8Array>): Promise<Uint8Array<ArrayBuffer>>;
async function bytesOf(stream: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array<ArrayBuffer> | undefined>;
async function bytesOf(stream: ReadableStream<Uint8Array>, most = Number.POSITIVE_INFINITY): Promise<Uint8Array<ArrayBuffer> | undefined> {
  const pieces: Uint8Array[] = [];
  let length = 0;
  const reader = stream.getReader();
  for (;;) {
    const { done: ended, value } = await reader.read();
    if (ended) break;
    pieces.push(value);
    length += value.length;
    if (length > most) {
      await reader.cancel();
      return undefined;
    }
  }
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

function toBase64(bytes: Uint8Array): string {
  let binary = '';
  for (const b of bytes) binary += String.fromCharCode(b);
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

function fromBase64(text: string): Uint8Array<ArrayBuffer> | undefined {
  if (!/^[\w-]+$/.test(text)) return undefined;
  try {
    return Uint8Array.from(atob(text.replaceAll('-', '+').replaceAll('_', '/')), (c) => c.charCodeAt(0));
  } catch {
    return undefined;
  }
}
