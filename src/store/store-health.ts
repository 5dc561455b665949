// Whether the database does what it is asked, judged from what it did last, for each kind of access by itself.
//
// A full disk can be read, and most of what is written in place still fits: neither tells that what failed would succeed
// now. So a fault is mended by an access of the very kind that failed, or by a probe that took room on the disk. A kind that
// fails again after such a probe has refuted it: from then on only its own success counts.

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
      /** For how long, by a clock that nobody sets [ms]. */
      readonly forMs: number;
    };

/** What needs room and what is written in place are kinds of their own. */
export type WriteKind =
  | 'documents'
  | 'plans'
  | 'states'
  | 'claims'
  | 'definitions'
  | 'keys'
  | 'deliveries'
  | 'watch'
  | 'paces'
  | 'secrets'
  | 'expiry'
  | 'restore'
  | 'probe';
export type AccessKind = 'reading' | WriteKind;

export interface HealthRecord {
  now(): StoreHealth;
  /** For a writing: one that left something behind. */
  succeeded(kind: AccessKind): void;
  /** A probe took room, and was read back. */
  proved(): void;
  failed(kind: AccessKind, cause: StoreCause, message: string): void;
}

export interface HealthClocks {
  readonly nowMs: () => number;
  readonly steadyMs: () => number;
}

interface Trouble {
  cause: StoreCause;
  message: string;
  readonly sinceMs: number;
  readonly sinceSteadyMs: number;
  lastSteadyMs: number;
  /** False: a probe has shown that it is over, which the next failure refutes. */
  stands: boolean;
  isProbeRefuted: boolean;
}

/** A kind that has not failed for so long is no longer held against the store, once a probe succeeds [ms]. */
const QUIET_MS = 600_000;

export function createHealthRecord({ nowMs, steadyMs }: HealthClocks): HealthRecord {
  const troubles = new Map<AccessKind, Trouble>();
  return {
    now() {
      const standing = [...troubles.values()].filter(({ stands }) => stands);
      const [oldest] = standing.sort((a, b) => a.sinceSteadyMs - b.sinceSteadyMs);
      if (oldest === undefined) return { ok: true };
      const { cause, message, sinceMs, sinceSteadyMs } = oldest;
      return { ok: false, cause, message, sinceMs, forMs: steadyMs() - sinceSteadyMs };
    },
    succeeded(kind) {
      troubles.delete(kind);
    },
    proved() {
      troubles.delete('probe');
      for (const [kind, trouble] of troubles) {
        if (kind === 'reading') continue;
        if (steadyMs() - trouble.lastSteadyMs > QUIET_MS) troubles.delete(kind);
        else if (!trouble.isProbeRefuted) trouble.stands = false;
      }
    },
    failed(kind, cause, message) {
      const known = troubles.get(kind);
      const atMs = steadyMs();
      if (known === undefined) {
        const since = { sinceMs: nowMs(), sinceSteadyMs: atMs, lastSteadyMs: atMs };
        troubles.set(kind, { ...since, cause, message, stands: true, isProbeRefuted: false });
        return;
      }
      if (!known.stands) known.isProbeRefuted = true;
      Object.assign(known, { cause, message, stands: true, lastSteadyMs: atMs });
    },
  };
}
