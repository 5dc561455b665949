// One GET over undici: redirects within the origin, a cap on bytes, one deadline for all of it. No retry, no cache.

import { type Dispatcher, request } from 'undici';
import { ServiceError } from '#errors.ts';
import { type Headers, safeUrl } from './http-problem.ts';

export interface SendOptions {
  readonly dispatcher: Dispatcher;
  readonly headers: Readonly<Record<string, string>>;
  readonly maxBytes: number;
  readonly signal: AbortSignal;
}

export interface HttpReply {
  readonly status: number;
  readonly headers: Headers;
  readonly bytes: Uint8Array;
  /** Where the answer came from, after redirects. */
  readonly url: URL;
}

const MOST_REDIRECTS = 3;
const REDIRECTS = new Set([301, 302, 303, 307, 308]);
/** Of an error body no more than this is read [bytes]. */
const MOST_ERROR_BYTES = 65_536;

/**
 * Sends one GET and reads the answer. Throws ServiceError `source_too_large` past `maxBytes` (stated, received, or after
 * decompression) and `source_refused` for a redirect that leaves the origin or never ends; network faults come as
 * undici throws them.
 */
export async function sendGet(target: URL, options: SendOptions): Promise<HttpReply> {
  let url = target;
  for (let hops = 0; hops <= MOST_REDIRECTS; hops += 1) {
    const { dispatcher, headers, signal } = options;
    const answer = await request(url, { method: 'GET', dispatcher, headers: { ...headers }, signal });
    const found = plainHeaders(answer.headers);
    if (!REDIRECTS.has(answer.statusCode)) {
      const bytes = await readBody(answer.body, answer.statusCode, found, url, options.maxBytes);
      return { status: answer.statusCode, headers: found, bytes, url };
    }
    letGo(answer.body);
    url = redirected(url, found['location'] ?? null, answer.statusCode);
  }
  throw new ServiceError('source_refused', `more than ${MOST_REDIRECTS} redirects from ${safeUrl(target)}`, {
    facts: { url: safeUrl(target) },
  });
}

function redirected(from: URL, location: string | null, status: number): URL {
  const to = location === null || !URL.canParse(location, from) ? null : new URL(location, from);
  const facts = { url: safeUrl(from), status, location: to === null ? location : safeUrl(to) };
  if (to === null)
    throw new ServiceError('source_refused', 'a redirect without a target that can be read', { facts });
  if (to.origin !== from.origin) {
    throw new ServiceError('source_refused', `a redirect to another origin is not followed: ${to.origin}`, {
      facts,
    });
  }
  return to;
}

async function readBody(
  body: Dispatcher.ResponseData['body'],
  status: number,
  headers: Headers,
  url: URL,
  maxBytes: number,
): Promise<Uint8Array> {
  const isError = status >= 400;
  const most = isError ? Math.min(MOST_ERROR_BYTES, maxBytes) : maxBytes;
  if (!isError && Number(headers['content-length'] ?? 0) > most) {
    letGo(body);
    throw tooLarge(url, most);
  }
  const chunks: Uint8Array[] = [];
  let length = 0;
  try {
    for await (const chunk of body as AsyncIterable<Uint8Array>) {
      chunks.push(chunk);
      length += chunk.byteLength;
      if (length <= most) continue;
      if (isError) break;
      throw tooLarge(url, most);
    }
  } catch (fault) {
    throw isSizeFault(fault) ? tooLarge(url, most) : fault;
  }
  return joined(chunks, Math.min(length, most));
}

/** Closes a body unread; the abort that this raises in the stream is no fault. */
function letGo(body: Dispatcher.ResponseData['body']): void {
  body.on('error', () => undefined);
  body.destroy();
}

/** Leaving the loop above destroys the stream, so nothing more is received. */
const tooLarge = (url: URL, most: number): ServiceError =>
  new ServiceError('source_too_large', `the answer is larger than ${most} bytes: ${safeUrl(url)}`, {
    facts: { url: safeUrl(url), maxBytes: most },
  });

const isSizeFault = (fault: unknown): boolean =>
  fault instanceof Error && 'code' in fault && fault.code === 'UND_ERR_RES_EXCEEDED_MAX_SIZE';

function joined(chunks: readonly Uint8Array[], length: number): Uint8Array {
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    const part = chunk.subarray(0, length - at);
    whole.set(part, at);
    at += part.byteLength;
  }
  return whole;
}

function plainHeaders(headers: Dispatcher.ResponseData['headers']): Headers {
  const plain: Record<string, string> = {};
  for (const [name, value] of Object.entries(headers)) {
    if (value !== undefined) plain[name.toLowerCase()] = Array.isArray(value) ? value.join(', ') : value;
  }
  return plain;
}
