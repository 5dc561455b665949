// Bytes and unknown JSON, looked at with care: nothing here trusts the shape of what came in.

import { messageOf, ServiceError } from '#errors.ts';

export type JsonObject = Readonly<Record<string, unknown>>;

export const isObject = (value: unknown): value is JsonObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Text, or null where the value is none or empty. */
export const textOf = (value: unknown): string | null =>
  typeof value === 'string' && value !== '' ? value : null;

/** Parses UTF-8 JSON; throws ServiceError `source_unreadable` that names `what` where it is none. */
export function parseJson(bytes: Uint8Array, what: string): unknown {
  try {
    // Buffer, since TextDecoder takes several times as long; a byte order mark is no JSON and must go.
    const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).toString('utf8');
    return JSON.parse(text.startsWith('\uFEFF') ? text.slice(1) : text);
  } catch (fault) {
    throw new ServiceError('source_unreadable', `${what} is no JSON: ${messageOf(fault).slice(0, 160)}`, {
      cause: fault,
      facts: { byteCount: bytes.byteLength },
    });
  }
}
