// A new key: its text, to be shown once, and its record, to be kept.

import { randomBytes } from 'node:crypto';
import type { ApiKey, Scope } from '#store/api-key.ts';
import { digestOf, PREFIX_LENGTH, PREFIX_LETTERS } from './key-text.ts';

export interface KeyWish {
  readonly name: string;
  readonly organisation: string;
  readonly sites: readonly string[] | null;
  readonly scopes: readonly Scope[];
  readonly expiresAtMs: number | null;
}

export interface Minted {
  /** The key itself; kept nowhere. */
  readonly text: string;
  readonly key: ApiKey;
}

export function mintKey(
  wish: KeyWish,
  nowMs: number,
  random: (bytes: number) => Buffer = randomBytes,
): Minted {
  // The alphabet has 32 letters: the remainder of a byte favours none.
  const letters = [...random(PREFIX_LENGTH)].map((byte) => PREFIX_LETTERS[byte % PREFIX_LETTERS.length]);
  const prefix = letters.join('');
  const text = `pw_${prefix}_${random(32).toString('base64url')}`;
  const { name, organisation, sites, scopes, expiresAtMs } = wish;
  const digest = digestOf(text).toString('hex');
  return {
    text,
    key: {
      prefix,
      digest,
      name,
      organisation,
      sites,
      scopes,
      createdAtMs: nowMs,
      expiresAtMs,
      lastUsedAtMs: null,
      revokedAtMs: null,
    },
  };
}
