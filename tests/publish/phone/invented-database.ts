// A phone's database in memory, which can fail where a test says so: as much of IndexedDB as the scripts use (W3C Indexed
// Database API 3.0: a request that fails aborts its transaction, and nothing of that is kept). No test in here.

type Rows = Map<number | string, unknown>;
export type Step = 'get' | 'getAll' | 'put' | 'delete';

interface Asked {
  result: unknown;
  error: Error | null;
  onsuccess?: () => void;
  onerror?: () => void;
  onupgradeneeded?: () => void;
}

export interface InventedDatabase {
  readonly stores: { readonly taps: Rows; readonly facts: Rows };
  /** What is given to scripts as `indexedDB`. */
  readonly factory: { open(): Asked };
  /** The steps that fail from now on. */
  fails: (store: 'taps' | 'facts', step: Step, nth: number) => boolean;
}

export function inventDatabase(): InventedDatabase {
  const stores = { taps: new Map() as Rows, facts: new Map() as Rows };
  let lastN = 0;

  function transactionOn(name: 'taps' | 'facts') {
    const rows = new Map(stores[name]);
    const transaction = { error: null as Error | null, oncomplete: () => {}, onabort: () => {}, objectStore };
    let open = 0;
    let nth = 0;
    const step = (kind: Step, work: () => unknown): Asked => {
      const request: Asked = { result: undefined, error: null };
      open += 1;
      nth += 1;
      const fault = database.fails(name, kind, nth) ? new Error('the database does not work') : null;
      queueMicrotask(() => {
        open -= 1;
        if (transaction.error) return;
        if (fault) {
          request.error = fault;
          transaction.error = fault;
          request.onerror?.();
          queueMicrotask(() => transaction.onabort());
          return;
        }
        request.result = work();
        request.onsuccess?.();
        if (open === 0)
          queueMicrotask(() => {
            stores[name].clear();
            for (const [key, row] of rows) stores[name].set(key, row);
            transaction.oncomplete();
          });
      });
      return request;
    };
    const keyOf = (row: { n?: number }): number => {
      row.n ??= lastN += 1;
      return row.n;
    };
    function objectStore() {
      return {
        get: (key: string) => step('get', () => rows.get(key)),
        getAll: () => step('getAll', () => [...rows.values()]),
        delete: (key: number) => step('delete', () => void rows.delete(key)),
        put: (row: unknown, key?: string) =>
          step('put', () => void rows.set(key ?? keyOf(row as { n?: number }), row)),
      };
    }
    return transaction;
  }

  const database: InventedDatabase = {
    stores,
    fails: () => false,
    factory: {
      open() {
        const result = { transaction: transactionOn, createObjectStore: () => {}, close: () => {} };
        const request: Asked = { result, error: null };
        queueMicrotask(() => request.onsuccess?.());
        return request;
      },
    },
  };
  return database;
}
