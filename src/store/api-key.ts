// Keys by which other programs and people may ask. Only the digest of a key is kept.

export const SCOPES = ['read', 'observe', 'burn', 'notify', 'admin'] as const;
export type Scope = (typeof SCOPES)[number];

export interface ApiKey {
  /** Names the key in lists and logs; 8 characters, unique. */
  readonly prefix: string;
  /** SHA-256 of the whole key, 64 hexadecimal digits. */
  readonly digest: string;
  readonly name: string;
  readonly organisation: string;
  /** Ids of the sites that it may see; null: all of the organisation. */
  readonly sites: readonly string[] | null;
  readonly scopes: readonly Scope[];
  readonly createdAtMs: number;
  readonly expiresAtMs: number | null;
  readonly lastUsedAtMs: number | null;
  readonly revokedAtMs: number | null;
}

/** Who did what to what. */
export interface AuditRow {
  readonly atMs: number;
  readonly organisation: string;
  readonly who: string;
  /** `key-made`, `key-revoked`, `definition-changed` … */
  readonly what: string;
  readonly subject: string;
  /** JSON; never a secret. */
  readonly detail: unknown;
}
