// Whether the database does what it is asked, judged from the last reading and the last writing.

/** Why the database cannot do it now. */
export type StoreCause =
  | 'disk-full'
  | 'read-only'
  | 'locked'
  | 'connection-lost'
  | 'too-slow'
  | 'damaged'
  | 'closed'
  | 'other';

export type StoreHealth =
  | { readonly ok: true }
  | {
      readonly ok: false;
      readonly cause: StoreCause;
      readonly message: string;
      /** When it first failed, with no success since [epoch ms]. */
      readonly sinceMs: number;
    };

/** A failed writing is mended by a writing only: a full disk can still be read. */
export type Access = 'reading' | 'writing';

export interface HealthRecord {
  now(): StoreHealth;
  succeeded(access: Access): void;
  failed(access: Access, cause: StoreCause, message: string): void;
}

export function createHealthRecord(nowMs: () => number): HealthRecord {
  const faults: Record<Access, Extract<StoreHealth, { ok: false }> | null> = { reading: null, writing: null };
  return {
    now: () => faults.writing ?? faults.reading ?? { ok: true },
    succeeded(access) {
      faults[access] = null;
      if (access === 'writing') faults.reading = null;
    },
    failed(access, cause, message) {
      faults[access] = { ok: false, cause, message, sinceMs: faults[access]?.sinceMs ?? nowMs() };
    },
  };
}
