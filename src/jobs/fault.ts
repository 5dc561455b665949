// A fault as it is kept beside what it kept from being done.

import { messageOf, ServiceError } from '#errors.ts';
import type { StoredFault } from '#store/cell-state.ts';

export const storedFault = (fault: unknown, atMs: number): StoredFault => ({
  code: fault instanceof ServiceError ? fault.code : 'internal',
  message: messageOf(fault),
  atMs,
  ...againAt(fault),
});

function againAt(fault: unknown): { againAtMs?: number } {
  const againAtMs = fault instanceof ServiceError ? fault.facts['againAtMs'] : undefined;
  return typeof againAtMs === 'number' ? { againAtMs } : {};
}

/** A store that cannot write leaves a turn undone; every other fault is an outcome of its own. */
export const isStoreFault = (fault: unknown): boolean =>
  fault instanceof ServiceError && (fault.code === 'store_unavailable' || fault.code === 'claim_lost');
