// Keys by which other programs and people may ask. Only the digest of a key is kept.

/** `calendar`: reads the calendar of go windows under an address that holds the key, and nothing else. */
export const SCOPES = ['read', 'observe', 'burn', 'notify', 'order', 'calendar', 'admin'] as const;
export type Scope = (typeof SCOPES)[number];

/** Good for nothing else: one that may do more is not to stand in an address. */
export const isForCalendars = (scopes: readonly Scope[]): boolean =>
  scopes.length === 1 && scopes[0] === 'calendar';

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
