// How a key is written: `pw_` + 8 characters that name it + `_` + 256 random bits in base64url.

import { createHash, timingSafeEqual } from 'node:crypto';

export const PREFIX_LENGTH = 8;

/** Small letters and digits without those that are mistaken for each other: 32 of them, 5 bits each. */
export const PREFIX_LETTERS = 'abcdefghijkmnpqrstuvwxyz23456789';

const KEY = /^pw_([a-z2-9]{8})_[A-Za-z0-9_-]{43}$/;

/** Prefix of a well-formed key; null for anything else. */
export function prefixOf(text: string): string | null {
  return KEY.exec(text)?.[1] ?? null;
}

export const digestOf = (text: string): Buffer => createHash('sha256').update(text).digest();

/** Takes as long whatever differs. */
export const sameDigest = (a: Buffer, b: Buffer): boolean => a.length === b.length && timingSafeEqual(a, b);
