// Equal work under way is joined, not repeated. One who gives up leaves the others waiting; when all have, it is stopped.

import { ServiceError } from '#errors.ts';

export interface Shared<T> {
  /** Joins the work of that key, or begins it. Rejects at once when `signal` is aborted. */
  join(key: string, signal: AbortSignal | undefined, begin: (signal: AbortSignal) => Promise<T>): Promise<T>;
}

interface Work<T> {
  readonly promise: Promise<T>;
  readonly controller: AbortController;
  waiters: number;
}

export function makeShared<T>(): Shared<T> {
  const underWay = new Map<string, Work<T>>();

  const begun = (key: string, begin: (signal: AbortSignal) => Promise<T>): Work<T> => {
    const controller = new AbortController();
    const promise = begin(controller.signal).finally(() => {
      if (underWay.get(key)?.controller === controller) underWay.delete(key);
    });
    promise.catch(() => undefined); // every waiter hears of it; none may be left when it fails
    const work: Work<T> = { promise, controller, waiters: 0 };
    underWay.set(key, work);
    return work;
  };

  return {
    join(key, signal, begin) {
      if (signal?.aborted) return Promise.reject(calledOff(signal.reason));
      const work = underWay.get(key) ?? begun(key, begin);
      work.waiters += 1;
      return new Promise((resolve, reject) => {
        const giveUp = () => {
          work.waiters -= 1;
          reject(calledOff(signal?.reason));
          if (work.waiters > 0) return;
          if (underWay.get(key) === work) underWay.delete(key);
          work.controller.abort(signal?.reason);
        };
        signal?.addEventListener('abort', giveUp, { once: true });
        work.promise.then(resolve, reject).finally(() => signal?.removeEventListener('abort', giveUp));
      });
    },
  };
}

const calledOff = (cause: unknown): ServiceError =>
  new ServiceError('source_unreachable', 'the request was called off', { cause, retryable: true });
