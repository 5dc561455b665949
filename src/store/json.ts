// JSON as it is kept: text, so that what comes back is what went in on either database.

import { damaged } from './damaged.ts';

export const toJson = (value: unknown): string => JSON.stringify(value ?? null);

/** Throws ServiceError `store_unavailable`, cause `damaged`, where the text is no JSON. */
export function fromJson<T>(text: string): T {
  try {
    return JSON.parse(text) as T;
  } catch (cause) {
    throw damaged('a row holds text that is no JSON', cause);
  }
}
