// Which request work is done for, where it is done by parts that know of no requests and yet write log lines.

import { AsyncLocalStorage } from 'node:async_hooks';

const requests = new AsyncLocalStorage<string>();

export const duringRequest = <T>(id: string, work: () => T): T => requests.run(id, work);

/** Null outside of any. */
export const requestHere = (): string | null => requests.getStore() ?? null;
