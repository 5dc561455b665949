// Whether a store is there. What cannot be looked at is no missing file: a ban in it must not go unseen.

import { lstatSync, statSync } from 'node:fs';
import { messageOf, ServiceError } from '#errors.ts';
import type { StoreAddress } from '#store/open-store.ts';

/** Throws ServiceError `store_unavailable` where it cannot be told, as for a folder that may not be entered. */
export function isStoreThere(address: StoreAddress): boolean {
  if (!('sqliteFile' in address)) return true;
  const { sqliteFile } = address;
  try {
    if (lstatSync(sqliteFile, { throwIfNoEntry: false }) === undefined) return false;
    // A link to a file that is gone, as of a disk that is not mounted.
    statSync(sqliteFile);
    return true;
  } catch (cause) {
    const why = `cannot tell whether there is a store ${sqliteFile}: ${messageOf(cause)}`;
    throw new ServiceError('store_unavailable', why, { cause, facts: { cause: 'other' } });
  }
}
